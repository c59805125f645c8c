// Package certificate finds what to write on each withholding certificate of a
// household so that the year ends where the person wants it: the worksheets of
// the form, the plans and what each of them does to the year, January's second
// certificate, the other ways to put a year right, when a new certificate is
// due, and which plan a careful adviser would give. It knows the return (package
// tax) and payroll, and brings the second to meet the first; it asks nothing and
// holds no figure of the law.
//
// Start at Solve; the choice among the plans is choose. It never suggests an entry that the form or Publication 505
// gives no basis for, and never one that a paycheck cannot carry.
package certificate

import (
	"fmt"
	"sync"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/paystub"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// The plans, by the names that the machine interface knows.
const (
	PlanKeep      = "keep"       // the certificates on file
	PlanPlain     = "plain"      // the filing status alone
	PlanBox       = "box"        // two jobs: Step 2(c) on both
	PlanExtra     = "extra"      // Step 4(c) on what is on file or the plain status
	PlanSimple    = "simple"     // those of the form's entries that are enough
	PlanForm      = "form"       // the form's own worksheets, on paper
	PlanTuned     = "tuned"      // the form's entries with one correction that lands
	PlanLasting   = "lasting"    // January's certificate, handed in now
	PlanPrivate   = "private"    // status and one extra amount, nothing else
	PlanEven      = "even"       // the correction shared by two earners
	PlanNoPenalty = "no_penalty" // as little as no penalty follows on
	PlanExempt    = "exempt"     // a claim to be exempt from withholding
)

// Result is everything that one household's answers lead to.
type Result struct {
	TaxYear      int
	AsFiled      Outlook // the year if the certificates on file stay
	AsFiledLands bool    // and it ends where the person wishes
	Recommended  Plan
	Advised      string // the plan that Solve recommended; Recommended is another once Choose has been called
	Alternatives []Plan
	January      *January // nil where no job runs into the next year
	Estimated    Estimated
	Planned      []tax.Payment // the estimated tax in the answers by due date, while all of those are to come
	Voluntary    VoluntaryWithholding
	Underpayment Underpayment // on the recommended plan; each plan has its own Harbor
	OtherWays    []Way
	Verdict      Verdict
	Doubts       []Doubt
	Duties       []Duty
	Steps        []Step
	States       []StateCertificate // of the states in which the jobs are, where the answers say so
	Irregular    []IrregularPay
	CheckFirst   []worksheet.Note // what cannot be right as given, or was put aside; each is among the warnings
	Warnings     []worksheet.Note

	Return    tax.Return          // the year's return, which no plan changes
	Trace     *worksheet.Sheet    // the return and the form's worksheets, line by line
	Harbor    tax.Harbor          // as filed
	Household household.Household // as it was solved
	Tables    *tables.Year        // with which it was solved

	next   *tables.Year // those of the year after, nil where they are not known
	found  foundIn
	stubs  func() []paystub.Stub
	ground string       // of the choice
	wished money.Amount // the balance that the paychecks are to bring
	shifts laterShifts
	causes func() []Cause
}

// Stubs are the last pay stubs of the jobs, read by the answers as they were given.
// They are read when they are first asked for.
func (r Result) Stubs() []paystub.Stub {
	if r.stubs == nil {
		return nil
	}
	return r.stubs()
}

// Projected reports whether the result comes from projected figures of the law.
func (r Result) Projected() bool { return r.Tables != nil && r.Tables.Projected != nil }

// Outlook is how the year ends. Amounts are dollars for the year; Balance is
// positive for a refund and negative for an amount due.
type Outlook struct {
	TotalTax          money.Amount `json:"total_tax"`
	RefundableCredits money.Amount `json:"refundable_credits"`
	WithheldSoFar     money.Amount `json:"withheld_so_far"`
	WithholdingToCome money.Amount `json:"withholding_to_come"`
	OtherPayments     money.Amount `json:"other_payments"`
	Balance           money.Amount `json:"balance"`
}

// settle works out the balance from the other figures.
func (o Outlook) settle() Outlook {
	o.Balance = money.Sum(o.WithheldSoFar, o.WithholdingToCome, o.OtherPayments, o.RefundableCredits).Sub(o.TotalTax)
	return o
}

// Plan is a certificate for every job, with the year that it leads to.
type Plan struct {
	Name string
	Outlook
	Certificates []JobCertificate
	// Lands: the balance is at least the wished refund and less than a dollar a
	// payday above it.
	Lands bool
	// Left is what is missing between the balance and the wished refund when the
	// plan does not land: positive is refunded beyond the wish, negative is
	// still owed by year end.
	Left   money.Amount
	Harbor tax.Harbor // whether the underpayment penalty is out of the question
	Reason words.Text // why this plan, or what it is, in a sentence

	NearEnough     bool         // it ends near enough to the goal
	Lasts          bool         // the same certificates are near enough for January's year
	JanuaryBalance money.Amount // what that year ends on if they stay

	shifts laterShifts
}

// NothingToHandIn reports whether every certificate of the plan is the one on
// file already.
func (p Plan) NothingToHandIn() bool {
	for _, c := range p.Certificates {
		if !c.Keep {
			return false
		}
	}
	return true
}

// Shifts is how far the balance moves if things come out otherwise. It is figured
// when it is first asked for: few readers want it of every plan.
func (p Plan) Shifts() []Shift { return p.shifts.figured() }

// AsFiledShifts is the same of the certificates on file.
func (r Result) AsFiledShifts() []Shift { return r.shifts.figured() }

// Shift is one way in which the rest of the year may come out otherwise.
type Shift struct {
	Case    string       `json:"case"`    // "pay_10_percent_lower", "pay_10_percent_higher", "second_job_stops"
	Balance money.Amount `json:"balance"` // the year's balance then
	Change  money.Amount `json:"change"`  // from the plan's own balance
	Stops   string       `json:"-"`       // the name of the job or pension that stops
}

// JobCertificate is the certificate of one job under a plan.
type JobCertificate struct {
	Job         int    // index into Household.Jobs
	Name        string // the job's name
	Kind        household.JobKind
	FirstPayday household.Date // the first payday on which it counts
	EffectiveBy household.Date // the payday by which payroll must have put it into effect, when handed in now
	Corrected   bool           // an amount was added to what the form asks for: for this year only
	ThisYear    bool           // January's plan replaces it
	NextYear    bool           // it is filled in for next year
	Keep        bool           // it is what payroll has already: nothing to hand in
	Certificate household.Certificate
	Lines       Lines
	Learns      []words.Text // what this employer learns from it
	Withholding money.Amount // from an ordinary paycheck
	Change      money.Amount // take-home pay of an ordinary paycheck, more (positive) or less than now
	TakeHomeNow money.Amount // of an ordinary paycheck, after federal income tax, social security and Medicare tax
	TakeHome    money.Amount // the same with this certificate
	Paydays     int          // on which it counts this year
	LittleLeft  bool         // it takes more of an ordinary paycheck than is livable, or than the person allows
}

// Lines are the form's lines, whole dollars, each with its reason.
type Lines struct {
	L3a, L3b, L3, L4a, L4b, L4c Entry
}

// All are the lines in the form's order.
func (l Lines) All() []Entry { return []Entry{l.L3a, l.L3b, l.L3, l.L4a, l.L4b, l.L4c} }

// Entry is one line of a certificate.
type Entry struct {
	Line   string // "3a"
	Amount money.Amount
	Reason words.Text // in a sentence; zero when the line stays empty
	Source string
	From   []string // lines of the trace that it comes from
}

// Solve finds the plans for a household's year, and the one to recommend. The
// answers must have passed household.Check; y is the tables of the answers'
// year, next those of the year after, nil where they are not known yet.
//
// It fails when y is of another year than the answers, and when a job names its
// state and the table of the states is not in order.
func Solve(h household.Household, y, next *tables.Year) (Result, error) {
	if y == nil || y.Year != h.TaxYear {
		return Result{}, fmt.Errorf("the answers are for %d; give the yearly tables of %d", h.TaxYear, h.TaxYear)
	}
	trace, answers := new(worksheet.Sheet), h
	h, irregular := byAverage(h)
	h, past := withoutPastWish(h)
	pr := newProjection(h, y, trace)
	byOrdinary(answers, y, irregular)
	pr.found = foundIn{irregular: irregular, stubs: paystub.Doubts(answers, y), facts: h.Doubts(), pastWish: past}
	r := pr.solve(next, trace)
	r.stubs = sync.OnceValue(func() []paystub.Stub { return paystub.Stubs(answers, y) })
	var err error
	r.States, err = StateCertificates(answers, y)
	return r, err
}

// AsFiled is the year if every certificate on file stays: its outlook and its
// return, the latter traced to the sheet, which may be nil. It goes by the ordinary
// pay of the answers, and notes where Solve goes by the average of the year so far.
func AsFiled(h household.Household, y *tables.Year, m tax.Method, s *worksheet.Sheet) (Outlook, tax.Return) {
	if s != nil {
		_, irregular := byAverage(h)
		for _, p := range irregular {
			s.Say(words.T("certificate.warning.pay.by_ordinary", "job", p.Name, "average", p.Average, "ordinary", p.Ordinary))
		}
	}
	pr := projection{h: h, y: y, method: m, trace: s}
	pr.openJobs()
	pr.fileReturn()
	o := pr.outlook(pr.asFiledToCome())
	pr.traceOutlook(o, "on_file")
	return o, pr.ret
}

// Underpayment is whether the recommended plan keeps the person out of the
// penalty for underpaying estimated tax, and about how much it would be.
type Underpayment struct {
	tax.Harbor
	Penalty       money.Amount      // rough size for the year; zero where safe
	PenaltyIfPaid money.Amount      // the same when the estimated payments of the result are made on time
	PenaltyIfNow  money.Amount      // the same when all of them but the one due with the return are made on the day of the answers
	Quarters      []tax.Installment // how Penalty comes about; empty where safe
}

// LeftIfPaid is what is left of the penalty when those payments are made, as a
// choice of words: none, or some dollars.
func (u Underpayment) LeftIfPaid() string {
	if u.PenaltyIfPaid.ToDollar().IsZero() {
		return "none"
	}
	return "some"
}
