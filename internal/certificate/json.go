package certificate

import (
	"encoding/json"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// MarshalJSON writes the result as the machine interface has it: names are
// fixed, and added to but never renamed.
func (r Result) MarshalJSON() ([]byte, error) {
	type asFiled struct {
		Outlook
		Lands       bool    `json:"lands"`
		Sensitivity []Shift `json:"sensitivity"`
		Harbor      harbor  `json:"safe_harbor"`
	}
	type underpayment struct {
		harbor
		Penalty       money.Amount     `json:"penalty"`
		PenaltyIfPaid money.Amount     `json:"penalty_if_paid"` // with estimated_payments made on time
		Quarters      []penaltyQuarter `json:"quarters"`
	}
	return json.Marshal(struct {
		TaxYear      int              `json:"tax_year"`
		AsFiled      asFiled          `json:"as_filed"`
		Recommended  planJSON         `json:"recommended"`
		Alternatives []planJSON       `json:"alternatives"`
		January      any              `json:"january"`
		Estimated    money.Amount     `json:"estimated_payment"`
		Payments     []tax.Payment    `json:"estimated_payments"`
		Underpayment underpayment     `json:"underpayment"`
		OtherWays    []wayJSON        `json:"other_ways"`
		Warnings     []worksheet.Note `json:"warnings"`
	}{
		TaxYear:      r.TaxYear,
		AsFiled:      asFiled{r.AsFiled, r.AsFiledLands, list(r.AsFiledShifts), harborOf(r.Harbor)},
		Recommended:  r.Recommended.view(),
		Alternatives: views(r.Alternatives, Plan.view),
		January:      r.january(),
		Estimated:    r.Estimated.Amount,
		Payments:     list(r.Estimated.Payments),
		Underpayment: underpayment{harborOf(r.Underpayment.Harbor), r.Underpayment.Penalty, r.Underpayment.PenaltyIfPaid, quartersOf(r.Underpayment.Quarters)},
		OtherWays:    views(r.OtherWays, Way.view),
		Warnings:     list(r.Warnings),
	})
}

// list is a list that JSON writes as [] when it is empty.
func list[T any](l []T) []T {
	if l == nil {
		return []T{}
	}
	return l
}

// views are the items of a list as the machine interface has them.
func views[T, V any](l []T, view func(T) V) []V {
	all := make([]V, len(l))
	for i, x := range l {
		all[i] = view(x)
	}
	return all
}

// harbor is tax.Harbor as the machine interface has it.
type harbor struct {
	Safe     bool         `json:"safe"`
	Required money.Amount `json:"required_payment"`
	Reason   string       `json:"reason"`
}

func harborOf(h tax.Harbor) harbor { return harbor{h.Safe, h.Required, words.English().Say(h.Reason)} }

// penaltyQuarter is tax.Installment as the machine interface has it.
type penaltyQuarter struct {
	Due     household.Date `json:"due"`
	Short   money.Amount   `json:"short"`
	Penalty money.Amount   `json:"penalty"`
}

func quartersOf(installments []tax.Installment) []penaltyQuarter {
	quarters := []penaltyQuarter{}
	for _, q := range installments {
		quarters = append(quarters, penaltyQuarter{q.Due, q.Short, q.Penalty})
	}
	return quarters
}

// planJSON is a plan as the machine interface has it.
type planJSON struct {
	Name string `json:"plan"`
	Outlook
	Lands        bool              `json:"lands"`
	Left         money.Amount      `json:"left"`
	Reason       string            `json:"reason"`
	Certificates []certificateJSON `json:"certificates"`
	Sensitivity  []Shift           `json:"sensitivity"`
	Harbor       harbor            `json:"safe_harbor"`
}

func (p Plan) view() planJSON {
	return planJSON{p.Name, p.Outlook, p.Lands, p.Left, p.Reason, views(p.Certificates, JobCertificate.view), list(p.Shifts), harborOf(p.Harbor)}
}

// MarshalJSON writes the plan as the machine interface has it.
func (p Plan) MarshalJSON() ([]byte, error) { return json.Marshal(p.view()) }

// januaryJSON is January's certificates as the machine interface has them.
type januaryJSON struct {
	TaxYear    int  `json:"tax_year"`
	TablesYear int  `json:"tables_year"`
	Projected  bool `json:"projected"`
	planJSON
}

func (j January) view() januaryJSON {
	return januaryJSON{j.TaxYear, j.TablesYear, j.Projected, j.Plan.view()}
}

// january is January's certificates, none where no job runs into next year.
func (r Result) january() any {
	if r.January != nil {
		return r.January.view()
	}
	return struct {
		TaxYear      int               `json:"tax_year"`
		TablesYear   int               `json:"tables_year"`
		Projected    bool              `json:"projected"`
		Certificates []certificateJSON `json:"certificates"`
	}{r.TaxYear + 1, r.TaxYear, false, []certificateJSON{}}
}

// MarshalJSON writes January's certificates as the machine interface has them.
func (j January) MarshalJSON() ([]byte, error) { return json.Marshal(j.view()) }

// certificateJSON is a certificate as the machine interface has it.
type certificateJSON struct {
	Job          string                      `json:"job"`
	Kind         string                      `json:"kind"`
	FirstPayday  household.Date              `json:"first_payday"`
	EffectiveBy  string                      `json:"effective_by,omitempty"`
	Keep         bool                        `json:"keep"`
	Status       household.CertificateStatus `json:"filing_status"`
	MultipleJobs bool                        `json:"multiple_jobs"`
	Credits      money.Amount                `json:"credits"`
	OtherIncome  money.Amount                `json:"other_income"`
	Deductions   money.Amount                `json:"deductions"`
	Extra        money.Amount                `json:"extra"`
	Exempt       bool                        `json:"exempt"`
	Lines        linesJSON                   `json:"lines"`
	Entries      []Entry                     `json:"entries"` // the lines that are written, each with its reason
	Learns       []string                    `json:"employer_learns"`
	Withholding  money.Amount                `json:"withholding_per_paycheck"`
	Change       money.Amount                `json:"paycheck_change"`
	Paydays      int                         `json:"paydays"`
}

// linesJSON are the amounts of the form's lines.
type linesJSON struct {
	L3a money.Amount `json:"3a"`
	L3b money.Amount `json:"3b"`
	L3  money.Amount `json:"3"`
	L4a money.Amount `json:"4a"`
	L4b money.Amount `json:"4b"`
	L4c money.Amount `json:"4c"`
}

func (c JobCertificate) view() certificateJSON {
	v := certificateJSON{
		Job: c.Name, Kind: c.Kind.String(), FirstPayday: c.FirstPayday, Keep: c.Keep,
		Status: c.Certificate.Status, MultipleJobs: c.Certificate.MultipleJobs, Exempt: c.Certificate.Exempt,
		Credits: c.Certificate.Credits, OtherIncome: c.Certificate.OtherIncome, Deductions: c.Certificate.Deductions, Extra: c.Certificate.Extra,
		Lines:   linesJSON{c.Lines.L3a.Amount, c.Lines.L3b.Amount, c.Lines.L3.Amount, c.Lines.L4a.Amount, c.Lines.L4b.Amount, c.Lines.L4c.Amount},
		Entries: []Entry{}, Learns: list(c.Learns), Withholding: c.Withholding, Change: c.Change, Paydays: c.Paydays,
	}
	if !c.EffectiveBy.IsZero() {
		v.EffectiveBy = c.EffectiveBy.String()
	}
	for _, e := range c.Lines.All() {
		if e.Reason != "" {
			v.Entries = append(v.Entries, e)
		}
	}
	return v
}

// MarshalJSON writes the certificate as the machine interface has it.
func (c JobCertificate) MarshalJSON() ([]byte, error) { return json.Marshal(c.view()) }

// wayJSON is another way as the machine interface has it.
type wayJSON struct {
	Code      string        `json:"code"`
	Job       string        `json:"job"`
	Condition string        `json:"condition"`
	Request   string        `json:"request"`
	Source    string        `json:"source"`
	Paychecks []WayPaycheck `json:"paychecks"`
	Balance   money.Amount  `json:"balance"`
}

func (w Way) view() wayJSON {
	return wayJSON{w.Code, w.Name, w.Condition, w.Request, w.Source, list(w.Paychecks), w.Balance}
}

// MarshalJSON writes the way as the machine interface has it.
func (w Way) MarshalJSON() ([]byte, error) { return json.Marshal(w.view()) }
