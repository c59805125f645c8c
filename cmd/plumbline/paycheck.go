package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// paycheckFlags are the paycheck command's flags as they are typed.
type paycheckFlags struct {
	year                                          int
	pay, frequency, status                        string
	multipleJobs, exempt, before2020, nonresident bool
	credits, otherIncome, deductions, extra       string
	marital                                       string
	allowances                                    int
	rounding, method                              string
	yearToDate, retirement                        string
	asJSON                                        bool
	given                                         func(flag string) bool
}

func (p *program) paycheckCommand() *cobra.Command {
	var f paycheckFlags
	cmd := &cobra.Command{
		Use:        "paycheck",
		SuggestFor: []string{"pay", "withholding"},
		Args:       exactly(0, "flags"),
		RunE: func(cmd *cobra.Command, args []string) error {
			f.given = cmd.Flags().Changed
			return p.paycheck(f)
		},
	}
	fl := cmd.Flags()
	fl.IntVar(&f.year, "year", p.today.Year, "")
	fl.StringVar(&f.pay, "pay", "", "")
	fl.StringVar(&f.frequency, "frequency", "", "")
	fl.StringVar(&f.status, "status", "single", "")
	fl.BoolVar(&f.multipleJobs, "multiple-jobs", false, "")
	fl.StringVar(&f.credits, "credits", "0", "")
	fl.StringVar(&f.otherIncome, "other-income", "0", "")
	fl.StringVar(&f.deductions, "deductions", "0", "")
	fl.StringVar(&f.extra, "extra", "0", "")
	fl.BoolVar(&f.exempt, "exempt", false, "")
	fl.BoolVar(&f.before2020, "before-2020", false, "")
	fl.StringVar(&f.marital, "marital", "single", "")
	fl.IntVar(&f.allowances, "allowances", 0, "")
	fl.BoolVar(&f.nonresident, "nonresident", false, "")
	fl.StringVar(&f.rounding, "rounding", "cents", "")
	fl.StringVar(&f.method, "method", "percentage", "")
	fl.StringVar(&f.yearToDate, "year-to-date", "0", "")
	fl.StringVar(&f.retirement, "retirement", "0", "")
	fl.BoolVar(&f.asJSON, "json", false, "")
	return cmd
}

func (p *program) paycheck(f paycheckFlags) error {
	check, c, o, social, err := f.parse(p.language)
	if err != nil {
		return err
	}
	y, err := p.year(f.year)
	if err != nil {
		return err
	}
	sheet := new(worksheet.Sheet)
	withheld := payroll.Withholding(check, &c, y, o, sheet)
	stub := payroll.StubOf(check.Wages, withheld, social.retirement, social.before, y)
	if f.asJSON {
		return p.printJSON(payroll.View(p.language, y, withheld, stub, sheet))
	}
	page := report.Paycheck{Check: check, Certificate: c, Given: f.lines(), Year: y.Year, Withheld: withheld, Stub: stub, Sheet: sheet}
	if c.Extra.IsPositive() && !c.Exempt {
		bare := c
		bare.Extra = money.Zero
		less := payroll.Withholding(check, &bare, y, o, new(worksheet.Sheet))
		without := payroll.StubOf(check.Wages, less, social.retirement, social.before, y)
		page.WithoutExtra = &without
	}
	return p.print(p.pages().Projected(p.pages().Paycheck(page), y))
}

// lines are the lines of the certificate whose flags were typed.
func (f paycheckFlags) lines() []string {
	var all []string
	for _, of := range []struct{ flag, line string }{{"credits", "3"}, {"other-income", "4a"}, {"deductions", "4b"}, {"extra", "4c"}} {
		if f.given(of.flag) {
			all = append(all, of.line)
		}
	}
	return all
}

// socialPay is what social security and Medicare tax depend on besides the pay.
type socialPay struct{ before, retirement money.Amount }

// parse reads the flags and reports everything wrong with them at once.
func (f paycheckFlags) parse(l *words.Language) (payroll.Paycheck, household.Certificate, payroll.Options, socialPay, error) {
	r := flagReader{l: l}
	check := payroll.Paycheck{Wages: r.amount("pay", f.pay), Nonresident: f.nonresident}
	r.text("frequency", f.frequency, &check.Frequency)
	c := household.Certificate{
		MultipleJobs: f.multipleJobs,
		Credits:      r.amount("credits", f.credits),
		OtherIncome:  r.amount("other-income", f.otherIncome),
		Deductions:   r.amount("deductions", f.deductions),
		Extra:        r.amount("extra", f.extra),
		Exempt:       f.exempt,
		Allowances:   f.allowances,
	}
	r.text("status", f.status, &c.Status)
	r.text("marital", f.marital, &c.Marital)
	if f.before2020 {
		c.Edition = household.Before2020
	}
	o := payroll.Options{
		WholeDollars: r.oneOf("rounding", f.rounding, "cents", "dollar") == "dollar",
		WageBracket:  r.oneOf("method", f.method, "percentage", "bracket") == "bracket",
	}
	c.Check(func(key string, what words.Text) {
		r.wrong(strings.ReplaceAll(key, "_", "-"), what)
	})
	social := socialPay{before: r.amount("year-to-date", f.yearToDate), retirement: r.amount("retirement", f.retirement)}
	return check, c, o, social, r.err()
}

// flagReader reads flag values and keeps every mistake.
type flagReader struct {
	l        *words.Language
	mistakes []string
}

func (r *flagReader) wrong(flag string, what any) {
	r.mistakes = append(r.mistakes, r.l.Say(words.T("command.of_flag", "flag", flag, "what", what)))
}

func (r *flagReader) amount(flag, text string) money.Amount {
	if text == "" {
		r.wrong(flag, words.T("command.amount_missing"))
		return money.Zero
	}
	a, err := money.Parse(text)
	switch {
	case err != nil:
		r.wrong(flag, err)
	case a.IsNegative() && (flag == "pay" || flag == "year-to-date" || flag == "retirement"):
		r.wrong(flag, words.T("command.amount_negative"))
	}
	return a
}

func (r *flagReader) text(flag, text string, into interface{ UnmarshalText([]byte) error }) {
	if err := into.UnmarshalText([]byte(text)); err != nil {
		r.wrong(flag, err)
	}
}

func (r *flagReader) oneOf(flag, text string, choices ...string) string {
	for _, c := range choices {
		if c == text {
			return text
		}
	}
	r.wrong(flag, words.T("command.not_one_of", "text", text, "known", strings.Join(choices, ", ")))
	return ""
}

func (r *flagReader) err() error {
	if len(r.mistakes) == 0 {
		return nil
	}
	return wrongUsage(fmt.Errorf("%s", strings.Join(r.mistakes, "\n")))
}
