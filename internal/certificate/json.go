package certificate

import (
	"encoding/json"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// View is a result as JSON shows it, in a language. The names of its keys are
// permanent: they are added to, never changed.
type View struct {
	TaxYear      int                  `json:"tax_year"`
	Language     string               `json:"language"` // of the sentences
	Verdict      verdictJSON          `json:"verdict"`
	Projected    bool                 `json:"projected,omitempty"` // its tables are
	AsFiled      asFiledJSON          `json:"as_filed"`
	Recommended  planJSON             `json:"recommended"`
	Alternatives []planJSON           `json:"alternatives"`
	January      any                  `json:"january"`
	Estimated    money.Amount         `json:"estimated_payment"`
	Payments     []tax.Payment        `json:"estimated_payments"`
	Underpayment underpaymentJSON     `json:"underpayment"`
	OtherWays    []wayJSON            `json:"other_ways"`
	Doubts       []doubtJSON          `json:"doubts"`
	Duties       []dutyJSON           `json:"duties"`
	States       []stateJSON          `json:"state_certificates"`
	Irregular    []irregularJSON      `json:"irregular_pay"`
	CheckFirst   []worksheet.NoteView `json:"check_first"`
	Warnings     []worksheet.NoteView `json:"warnings"`
}

// asFiledJSON is the year on the certificates on file as the machine interface
// has it.
type asFiledJSON struct {
	Outlook
	Lands       bool    `json:"lands"`
	Sensitivity []Shift `json:"sensitivity"`
	Harbor      harbor  `json:"safe_harbor"`
}

// underpaymentJSON is the penalty as the machine interface has it.
type underpaymentJSON struct {
	harbor
	Penalty       money.Amount     `json:"penalty"`
	PenaltyIfPaid money.Amount     `json:"penalty_if_paid"` // with estimated_payments made on time
	Quarters      []penaltyQuarter `json:"quarters"`
}

// MarshalJSON writes the result in English.
func (r Result) MarshalJSON() ([]byte, error) { return json.Marshal(r.In(words.English())) }

// In is the result in a language, for JSON.
func (r Result) In(l *words.Language) View {
	in := speaker{l}
	return View{
		TaxYear:      r.TaxYear,
		Language:     l.Tag(),
		Verdict:      in.verdict(r.Verdict),
		Projected:    r.Projected(),
		AsFiled:      asFiledJSON{r.AsFiled, r.AsFiledLands, list(r.AsFiledShifts()), in.harbor(r.Harbor)},
		Recommended:  in.plan(r.Recommended),
		Alternatives: views(r.Alternatives, in.plan),
		January:      in.january(r),
		Estimated:    r.Estimated.Amount,
		Payments:     list(r.Estimated.Payments),
		Underpayment: underpaymentJSON{in.harbor(r.Underpayment.Harbor), r.Underpayment.Penalty, r.Underpayment.PenaltyIfPaid, quartersOf(r.Underpayment.Quarters)},
		OtherWays:    views(r.OtherWays, in.way),
		Doubts: views(r.Doubts, func(d Doubt) doubtJSON {
			_, code, _ := strings.Cut(d.About.Code, "doubt.")
			return doubtJSON{r.Household.JobName(d.Job), d.Entry, code, in.Say(d.About), in.Say(d.Safe)}
		}),
		Duties: views(r.Duties, func(d Duty) dutyJSON {
			v := dutyJSON{Job: r.Household.JobName(d.Job), Code: d.Code, Days: d.Days, Message: in.Say(d.Text)}
			if !d.By.IsZero() {
				v.By = d.By.String()
			}
			return v
		}),
		States: views(r.States, func(c StateCertificate) stateJSON {
			jobs := views(c.Jobs, r.Household.JobName)
			return stateJSON{c.State, in.Say(c.State.Name()), c.Wants, c.Form, jobs, list(c.ResidentsOf), c.Basis, in.Say(c.Text)}
		}),
		Irregular: views(r.Irregular, func(p IrregularPay) irregularJSON {
			return irregularJSON{p.Name, p.Average, p.Ordinary, p.ByOrdinary}
		}),
		CheckFirst: worksheet.NotesIn(l, r.CheckFirst),
		Warnings:   worksheet.NotesIn(l, r.Warnings),
	}
}

// speaker words the parts of a result for the machine interface.
type speaker struct{ *words.Language }

// verdictJSON is the verdict as the machine interface has it.
type verdictJSON struct {
	Code        string        `json:"code"`
	Sentences   []string      `json:"sentences"`
	Forms       int           `json:"forms"`
	NearEnough  bool          `json:"near_enough"`
	Penalty     money.Amount  `json:"penalty_if_unchanged"`
	PayDirectly directJSON    `json:"pay_directly"`
	TakeHome    []changeJSON  `json:"take_home_change"`
	LastYear    *lastYearJSON `json:"last_year_would_settle"`
}

type directJSON struct {
	Amount  money.Amount  `json:"amount"`
	By      *string       `json:"by"`
	Parts   []tax.Payment `json:"parts"`
	Waiting money.Amount  `json:"cost_of_waiting"`
}

type changeJSON struct {
	Job    string       `json:"job"`
	Amount money.Amount `json:"amount"`
	Now    money.Amount `json:"now"`
	Then   money.Amount `json:"then"`
}

type lastYearJSON struct {
	AtMost     money.Amount `json:"total_tax_at_most"`
	AtMostHigh money.Amount `json:"total_tax_at_most_high_income"`
	HighOver   money.Amount `json:"high_income_over"`
}

func (in speaker) verdict(v Verdict) verdictJSON {
	j := verdictJSON{
		Code: v.Code, Sentences: views(v.Sentences, in.Say), Forms: v.Forms, NearEnough: v.NearEnough, Penalty: v.PenaltyIfUnchanged,
		PayDirectly: directJSON{Amount: v.PayDirectly.Amount, Parts: list(v.PayDirectly.Parts), Waiting: v.PayDirectly.Waiting},
		TakeHome:    views(v.TakeHomeChange, func(t TakeHome) changeJSON { return changeJSON{t.Name, t.Change(), t.Now, t.Then} }),
	}
	if v.PayDirectly.Amount.IsPositive() {
		by := v.PayDirectly.By.String()
		j.PayDirectly.By = &by
	}
	if l := v.LastYear; l != nil {
		j.LastYear = &lastYearJSON{l.AtMost, l.AtMostHigh, l.HighOver}
	}
	return j
}

// doubtJSON is a doubt as the machine interface has it.
type doubtJSON struct {
	Job   string `json:"job"`
	Entry string `json:"entry"`
	Code  string `json:"code"`
	About string `json:"about"`
	Safe  string `json:"safe"`
}

// dutyJSON is a duty as the machine interface has it.
type dutyJSON struct {
	Job     string `json:"job"`
	Code    string `json:"code"`
	Days    int    `json:"days,omitempty"`
	By      string `json:"by,omitempty"`
	Message string `json:"message"`
}

// stateJSON is what a state wants as the machine interface has it.
type stateJSON struct {
	State       household.State   `json:"state"`
	Name        string            `json:"name"`
	Wants       tables.StateWants `json:"wants"`
	Form        string            `json:"form,omitempty"`
	Jobs        []string          `json:"jobs"`
	ResidentsOf []household.State `json:"residents_taxed_at_home"`
	Basis       tables.Basis      `json:"basis"`
	Message     string            `json:"message"`
}

// irregularJSON is irregular pay as the machine interface has it.
type irregularJSON struct {
	Job        string       `json:"job"`
	Average    money.Amount `json:"average"`
	Ordinary   money.Amount `json:"ordinary"`
	ByOrdinary money.Amount `json:"as_filed_balance_by_ordinary"`
}

// entryJSON is a line that is written as the machine interface has it.
type entryJSON struct {
	Line   string       `json:"line"`
	Amount money.Amount `json:"amount"`
	Reason string       `json:"reason"`
	Source string       `json:"source"`
	From   []string     `json:"from,omitempty"`
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

func (in speaker) harbor(h tax.Harbor) harbor { return harbor{h.Safe, h.Required, in.Say(h.Reason)} }

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
	Forms        int               `json:"forms"`   // to hand in
	Count        int               `json:"entries"` // lines filled in on those
	Lasts        bool              `json:"lasts"`
	January      money.Amount      `json:"january_balance"`
	NearEnough   bool              `json:"near_enough"`
	Reason       string            `json:"reason"`
	Certificates []certificateJSON `json:"certificates"`
	Sensitivity  []Shift           `json:"sensitivity"`
	Harbor       harbor            `json:"safe_harbor"`
}

func (in speaker) plan(p Plan) planJSON {
	return planJSON{p.Name, p.Outlook, p.Lands, p.Left, p.forms(), p.entries(), p.Lasts, p.JanuaryBalance, p.NearEnough, in.Say(p.Reason), views(p.Certificates, in.certificate), list(p.Shifts()), in.harbor(p.Harbor)}
}

// januaryJSON is January's certificates as the machine interface has them.
type januaryJSON struct {
	TaxYear    int    `json:"tax_year"`
	TablesYear int    `json:"tables_year"`
	Projected  bool   `json:"projected"`
	HandIn     string `json:"hand_in_by,omitempty"`
	planJSON
}

// january is January's certificates, none where no job runs into next year.
func (in speaker) january(r Result) any {
	j := r.January
	if j == nil {
		return struct {
			TaxYear      int               `json:"tax_year"`
			TablesYear   int               `json:"tables_year"`
			Projected    bool              `json:"projected"`
			Certificates []certificateJSON `json:"certificates"`
		}{r.TaxYear + 1, r.TaxYear, false, []certificateJSON{}}
	}
	v := januaryJSON{TaxYear: j.TaxYear, TablesYear: j.TablesYear, Projected: j.Projected != nil, planJSON: in.plan(j.Plan)}
	if !j.HandIn.IsZero() {
		v.HandIn = j.HandIn.String()
	}
	return v
}

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
	Entries      []entryJSON                 `json:"entries"` // the lines that are written, each with its reason
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

func (in speaker) certificate(c JobCertificate) certificateJSON {
	v := certificateJSON{
		Job: c.Name, Kind: c.Kind.String(), FirstPayday: c.FirstPayday, Keep: c.Keep,
		Status: c.Certificate.Status, MultipleJobs: c.Certificate.MultipleJobs, Exempt: c.Certificate.Exempt,
		Credits: c.Certificate.Credits, OtherIncome: c.Certificate.OtherIncome, Deductions: c.Certificate.Deductions, Extra: c.Certificate.Extra,
		Lines:   linesJSON{c.Lines.L3a.Amount, c.Lines.L3b.Amount, c.Lines.L3.Amount, c.Lines.L4a.Amount, c.Lines.L4b.Amount, c.Lines.L4c.Amount},
		Entries: []entryJSON{}, Learns: views(c.Learns, in.Say), Withholding: c.Withholding, Change: c.Change, Paydays: c.Paydays,
	}
	if !c.EffectiveBy.IsZero() {
		v.EffectiveBy = c.EffectiveBy.String()
	}
	for _, e := range c.Lines.All() {
		if !e.Reason.IsZero() {
			v.Entries = append(v.Entries, entryJSON{e.Line, e.Amount, in.Say(e.Reason), e.Source, e.From})
		}
	}
	return v
}

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

func (in speaker) way(w Way) wayJSON {
	return wayJSON{w.Code, w.Name, in.Say(w.Condition), in.Say(w.Request), w.Source, list(w.Paychecks), w.Balance}
}
