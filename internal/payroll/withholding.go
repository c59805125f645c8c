// Package payroll is what an employer's payroll office takes from pay: federal
// income tax by Publication 15-T and Publication 15, section 7, and social
// security and Medicare tax, for one paycheck or over all paydays of a job's
// year. It does not know the income tax return, and holds no figure of the
// law: those are in tables.Year.
//
// Start at Withholding for one paycheck, at NewJobYear for a job. Not computed:
// treaty exemptions of nonresident aliens, lock-in letters, and pension
// payments that are not paid at intervals.
package payroll

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// Paycheck is the pay of one payday.
type Paycheck struct {
	Wages       money.Amount // federal taxable wages, or the taxable part of a pension payment
	Frequency   household.Frequency
	Kind        household.JobKind
	Nonresident bool // a nonresident alien, to whom Publication 15-T's addition applies
}

// Options are the choices that Publication 15-T leaves to the employer. The
// zero value is the percentage method, to the cent.
type Options struct {
	WholeDollars bool // round to the dollar (Publication 15-T, Introduction: if done throughout)
	WageBracket  bool // the wage bracket method, up to the end of its tables
}

// rounded is the one rounding of a paycheck, at its last line: to the cent, or
// to the dollar where the employer does so throughout.
func (o Options) rounded(a money.Amount) money.Amount {
	if o.WholeDollars {
		return a.ToDollar()
	}
	return a.ToCent()
}

// perPaycheck is a yearly amount divided by the pay periods, rounded in the same step.
func (o Options) perPaycheck(yearly money.Amount, periods int) money.Amount {
	step := money.Cents(1)
	if o.WholeDollars {
		step = money.Dollars(1)
	}
	return yearly.ToMultiple(step.Times(periods)).DividedBy(periods)
}

// noneOnFile is how payroll treats an employee without a certificate: single,
// no other entries (Publication 15, section 9).
var noneOnFile household.Certificate

// Withholding is the federal income tax, in dollars, that payroll withholds
// from one paycheck under a certificate; nil is none on file. A pension's
// certificate is Form W-4P, which has no Step 2(c) box: the box is not read.
//
// It is never negative, and never more than the wages it is taken from. The
// lines go to s, which may be nil, as "payroll.1a" to "payroll.4b".
func Withholding(p Paycheck, c *household.Certificate, y *tables.Year, o Options, s *worksheet.Sheet) money.Amount {
	if c == nil {
		s.Say(words.T("note.certificate.none"))
		c = &noneOnFile
	}
	w := paper{p: p, c: c, y: y, periods: y.Payroll.Periods.Of(p.Frequency), o: o, s: s}
	if c.Exempt {
		return w.exempt()
	}
	withheld := w.withhold()
	if most := p.Wages.OrZero(); withheld.More(most) {
		if s != nil {
			s.Say(words.T("note.withholding.capped", "withheld", withheld, "most", most))
		}
		return most
	}
	return withheld
}

// paper is one paycheck on its way through a worksheet of Publication 15-T.
type paper struct {
	p       Paycheck
	c       *household.Certificate
	y       *tables.Year
	periods int // line 1b
	o       Options
	s       *worksheet.Sheet
	form    string // the worksheet whose lines are being written
}

func (w *paper) withhold() money.Amount {
	if w.o.WageBracket {
		if withheld, ok := w.wageBracket(); ok {
			return withheld
		}
	}
	return w.percentage()
}

// exempt withholds nothing, Step 4(c) included.
//
// IRC 3402(n); Publication 15, section 9.
func (w *paper) exempt() money.Amount {
	if w.s == nil {
		return money.Zero
	}
	w.form = w.automated()
	w.line("1a", "pay", w.p.Wages, worksheet.How{}, "taxable_pay")
	w.line("4b", "withheld", money.Zero, worksheet.Worded(words.T("how.exempt")), "certificate.exempt")
	return money.Zero
}

// automated is the percentage method's worksheet for automated systems.
func (w *paper) automated() string {
	if w.p.Kind == household.Pension {
		return "Worksheet 1B"
	}
	return "Worksheet 1A"
}

// old reports a certificate of before 2020, the one with allowances.
func (w *paper) old() bool { return w.c.Edition == household.Before2020 }

// box reports whether the Step 2(c) box counts.
func (w *paper) box() bool {
	return w.c.MultipleJobs && !w.old() && w.p.Kind == household.Wages
}

// status is the column of the tables: for a certificate of before 2020,
// married is the joint one, and both other boxes are the single one.
func (w *paper) status() household.CertificateStatus {
	switch {
	case !w.old():
		return w.c.Status
	case w.c.Marital == household.MaritalMarried:
		return household.CertificateJoint
	}
	return household.CertificateSingle
}

// wages is line 1a: the wages, with a nonresident alien's addition, which
// counts only for figuring the tax.
//
// Publication 15-T, "Withholding Adjustment for Nonresident Alien Employees",
// Tables 1 and 2.
func (w *paper) wages() money.Amount {
	wages := w.p.Wages.OrZero()
	if !w.p.Nonresident || w.p.Kind != household.Wages {
		return wages
	}
	addition := w.y.Payroll.Nonresident.Current
	if w.old() {
		addition = w.y.Payroll.Nonresident.Before2020
	}
	w.s.Say(words.T("note.nonresident.addition"))
	return wages.Add(addition.Of(w.p.Frequency))
}

// line writes one line of the worksheet; callers see to it that there is a
// sheet to write on. name is what the amount is, in the section line.payroll: what
// a line holds turns on the worksheet.
func (w *paper) line(line, name string, amount money.Amount, how worksheet.How, from ...string) {
	w.lineOf(worksheet.Dollars, line, name, amount, how, from)
}

// count writes a line that counts something.
func (w *paper) count(line, name string, n int, from ...string) {
	w.lineOf(worksheet.Count, line, name, money.Dollars(int64(n)), worksheet.How{}, from)
}

func (w *paper) lineOf(unit worksheet.Unit, line, name string, amount money.Amount, how worksheet.How, from []string) {
	w.s.Add(worksheet.Line{
		ID:     "payroll." + line,
		Form:   "Publication 15-T " + w.form + " line " + line,
		Name:   words.T("line.payroll." + name),
		Amount: amount,
		Unit:   unit,
		How:    how,
		From:   from,
		Source: w.y.Payroll.Source,
	})
}
