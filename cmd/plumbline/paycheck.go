package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
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
}

func (p *program) paycheckCommand() *cobra.Command {
	var f paycheckFlags
	cmd := &cobra.Command{
		Use:   "paycheck --pay AMOUNT --frequency biweekly [--status single] ...",
		Short: "What payroll withholds from one paycheck",
		Long: `Figures the federal income tax to withhold from one paycheck as Publication
15-T has payroll do it, step by step, and what the pay stub then shows: social
security and Medicare tax, and take-home pay. The flags are the certificate's
entries.`,
		Args: exactly(0, "no arguments, only flags"),
		RunE: func(cmd *cobra.Command, args []string) error { return p.paycheck(f) },
	}
	fl := cmd.Flags()
	fl.IntVar(&f.year, "year", p.today.Year, "tax `YEAR`")
	fl.StringVar(&f.pay, "pay", "", "federal taxable wages of the paycheck")
	fl.StringVar(&f.frequency, "frequency", "", "pay frequency: "+strings.Join(names(household.Frequencies()), ", "))
	fl.StringVar(&f.status, "status", "single", "Step 1(c): single, married_filing_jointly or head_of_household")
	fl.BoolVar(&f.multipleJobs, "multiple-jobs", false, "the box in Step 2(c) is checked")
	fl.StringVar(&f.credits, "credits", "0", "Step 3, dollars a year")
	fl.StringVar(&f.otherIncome, "other-income", "0", "Step 4(a), dollars a year")
	fl.StringVar(&f.deductions, "deductions", "0", "Step 4(b), dollars a year")
	fl.StringVar(&f.extra, "extra", "0", "Step 4(c), dollars a paycheck")
	fl.BoolVar(&f.exempt, "exempt", false, "the certificate claims exemption from withholding")
	fl.BoolVar(&f.before2020, "before-2020", false, "the certificate is of before 2020, with allowances")
	fl.StringVar(&f.marital, "marital", "single", "marital box of a certificate of before 2020: single, married or married_at_single_rate")
	fl.IntVar(&f.allowances, "allowances", 0, "allowances of a certificate of before 2020")
	fl.BoolVar(&f.nonresident, "nonresident", false, "the employee is a nonresident alien")
	fl.StringVar(&f.rounding, "rounding", "cents", "round the withholding to cents or to the whole dollar")
	fl.StringVar(&f.method, "method", "percentage", "percentage or bracket")
	fl.StringVar(&f.yearToDate, "year-to-date", "0", "social security wages that this employer paid earlier this year")
	fl.StringVar(&f.retirement, "retirement", "0", "put into a pre-tax retirement plan from the paycheck")
	fl.BoolVar(&f.asJSON, "json", false, "print JSON")
	return cmd
}

func (p *program) paycheck(f paycheckFlags) error {
	check, c, o, social, err := f.parse()
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
		return p.printJSON(payroll.View(y, withheld, stub, sheet))
	}
	return p.print(p.pages().Projected(p.pages().Paycheck(check, c, y.Year, withheld, stub, sheet), y))
}

// socialPay is what social security and Medicare tax depend on besides the pay.
type socialPay struct{ before, retirement money.Amount }

// parse reads the flags and reports everything wrong with them at once.
func (f paycheckFlags) parse() (payroll.Paycheck, household.Certificate, payroll.Options, socialPay, error) {
	var r flagReader
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
		r.wrong(strings.ReplaceAll(key, "_", "-"), words.English().Say(what))
	})
	social := socialPay{before: r.amount("year-to-date", f.yearToDate), retirement: r.amount("retirement", f.retirement)}
	return check, c, o, social, r.err()
}

// flagReader reads flag values and keeps every mistake.
type flagReader struct{ mistakes []string }

func (r *flagReader) wrong(flag, message string) {
	r.mistakes = append(r.mistakes, fmt.Sprintf("--%s: %s", flag, message))
}

func (r *flagReader) amount(flag, text string) money.Amount {
	if text == "" {
		r.wrong(flag, "is missing; write an amount like 2400.00")
		return money.Zero
	}
	a, err := money.Parse(text)
	switch {
	case err != nil:
		r.wrong(flag, words.English().Error(err))
	case a.IsNegative() && (flag == "pay" || flag == "year-to-date" || flag == "retirement"):
		r.wrong(flag, "this amount cannot be negative; write one like 2400.00")
	}
	return a
}

func (r *flagReader) text(flag, text string, into interface{ UnmarshalText([]byte) error }) {
	if err := into.UnmarshalText([]byte(text)); err != nil {
		r.wrong(flag, words.English().Error(err))
	}
}

func (r *flagReader) oneOf(flag, text string, choices ...string) string {
	for _, c := range choices {
		if c == text {
			return text
		}
	}
	r.wrong(flag, fmt.Sprintf("%q is not one of: %s", text, strings.Join(choices, ", ")))
	return ""
}

func (r *flagReader) err() error {
	if len(r.mistakes) == 0 {
		return nil
	}
	return wrongUsage(fmt.Errorf("%s", strings.Join(r.mistakes, "\n")))
}

func names[T fmt.Stringer](values []T) []string {
	list := make([]string, len(values))
	for i, v := range values {
		list[i] = v.String()
	}
	return list
}
