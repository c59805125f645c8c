package interview

import (
	"slices"
	"strconv"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// Blank reports the simplest result: every certificate has the filing status
// and the signature, and nothing more. No pay was asked for, so Result then
// has the certificates alone, and no figures of the year.
func (s *Session) Blank() bool { return s.walk.blank }

// Result is what the answers lead to. It fails while an answer is missing that
// the computation needs, with all of them named.
func (s *Session) Result() (certificate.Result, error) {
	if !s.result.done {
		r, err := s.solve()
		s.result = cached{done: true, result: r, err: err, advised: r.Recommended.Name}
		if plan, ok := s.doc.Get(planKey); ok && err == nil {
			_ = s.result.result.Choose(plan) // a plan that there is no more leaves the one recommended
		}
	}
	return s.result.result, s.result.err
}

func (s *Session) solve() (certificate.Result, error) {
	if s.walk.blank {
		return s.blankResult()
	}
	h, err := s.Household()
	if err != nil {
		return certificate.Result{}, err
	}
	h.Jobs = slices.Clone(h.Jobs)
	for i := range h.Jobs {
		if h.Jobs[i].Name == "" {
			h.Jobs[i].Name = s.jobName("jobs[" + strconv.Itoa(i) + "]")
		}
	}
	if s.walk.get("interview.exempt").yes() {
		none := money.Zero
		h.Wish.Exempt, h.LastYear = true, &household.LastYear{TotalTax: &none}
	}
	return certificate.Solve(h.Named(s.env.language()), s.y.now, s.y.next)
}

// blankResult is a certificate with the status alone, for the one job.
func (s *Session) blankResult() (certificate.Result, error) {
	status := s.walk.household().Status
	plan := certificate.Plan{Name: certificate.PlanForm, Lands: true, Reason: words.T("certificate.why.blank")}
	c := certificate.JobCertificate{Name: s.walk.phrase("job"), Certificate: household.Certificate{Status: status.OnCertificate()}}
	c.Lines = certificate.EmptyLines()
	plan.Certificates = append(plan.Certificates, c)
	states, err := certificate.StateCertificates(s.walk.household(), s.y.now)
	return certificate.Result{
		TaxYear:     s.y.now.Year,
		Tables:      s.y.now,
		Recommended: plan,
		States:      states,
		Household:   household.Household{Format: household.Format, TaxYear: s.y.now.Year, AsOf: s.env.Today, Status: status},
	}, err
}

// Plans are the plans to choose from, the one recommended first, and the value
// of the one whose certificates Result has now. A blank certificate leaves
// nothing to choose.
func (s *Session) Plans() (plans []Option, chosen string, err error) {
	r, err := s.Result()
	if err != nil || s.walk.blank {
		return nil, "", err
	}
	chosen = r.Recommended.Name
	if err := r.Choose(s.result.advised); err != nil {
		return nil, "", err
	}
	for i, p := range append([]certificate.Plan{r.Recommended}, r.Alternatives...) {
		o := Option{Value: p.Name, Label: s.walk.phrase("plan", "name", words.T("page.plan."+p.Name), "what", words.T("interview.phrase.plan_"+p.Name)), Help: s.walk.lang.Say(p.Reason)}
		for _, c := range p.Certificates {
			if c.LittleLeft {
				o.Help += " " + s.walk.lang.Say(c.Takes())
			}
		}
		if i == 0 {
			o.Label = s.walk.phrase("recommended", "plan", o.Label)
		}
		plans = append(plans, o)
	}
	return plans, chosen, nil
}

// Choose has Result hand over the certificates of a plan, until an answer
// changes. It fails when there is no such plan.
func (s *Session) Choose(name string) error {
	r, err := s.Result()
	if err != nil {
		return err
	}
	if err := r.Choose(name); err != nil {
		return err
	}
	s.doc.Delete(planKey)
	if name != s.result.advised {
		if err := s.doc.Set(planKey, name); err != nil {
			return err
		}
	}
	s.result = cached{}
	return nil
}

// Draft is the certificates as they are while questions are asked: the paper,
// line by line.
type Draft struct {
	Certificates []DraftCertificate
	Final        bool // every question is answered
}

// DraftCertificate is one job's certificate as it is.
type DraftCertificate struct {
	Job    string // as people read it
	Exempt bool
	Lines  []DraftLine // in the form's order
}

// DraftLine is one line of the certificate.
type DraftLine struct {
	Line  string // "1(c)", "2(c)", "3(a)", …
	Label string
	Text  string // what is on it; empty when the line is left empty
	Open  bool   // a question to come can still change it
}

// draftLines are the lines of a draft, with the last chapter whose answers can
// change each.
var draftLines = []struct {
	line  string
	until int
}{
	{"1c", people},
	{"2c", whatElse},
	{"3a", people},
	{"3b", people},
	{"3", yourWish},
	{"4a", otherIncome},
	{"4b", credits},
	{"4c", yourWish},
}

// Draft is the certificates as they are. While questions are open it has the
// entries of the form's own worksheets, for the jobs whose pay is known, and
// says which lines can still change; at the end it has the recommended ones.
func (s *Session) Draft() Draft {
	final := s.position() == len(s.walk.steps)
	if final {
		if r, err := s.Result(); err == nil {
			return s.drafted(r, r.Recommended, nil)
		}
	}
	h := tolerant(s.doc)
	at, ready := readyJobs(h)
	h.Jobs = ready
	if len(ready) == 0 || !h.Agrees() {
		return s.sketch()
	}
	r, err := certificate.Solve(h, s.y.now, nil)
	if err != nil {
		return s.sketch()
	}
	plan := r.Recommended
	for _, p := range r.Alternatives {
		if p.Name == certificate.PlanForm && h.Wish.TellEmployer == household.TellAll {
			plan = p
		}
	}
	return s.drafted(r, plan, at)
}

// readyJobs are the jobs whose pay is known, with their places in the list.
func readyJobs(h household.Household) (at []int, ready []household.Job) {
	for i, j := range h.Jobs {
		if j.Frequency != household.FrequencyUnknown && (j.OrdinaryPay().IsPositive() || j.YearToDate != nil) {
			at, ready = append(at, i), append(ready, j)
		}
	}
	return at, ready
}

// drafted is a draft of a plan; at gives the jobs their places in the file, the
// same where it is nil.
func (s *Session) drafted(r certificate.Result, p certificate.Plan, at []int) Draft {
	d := Draft{Final: at == nil}
	for _, c := range p.Certificates {
		index := c.Job
		if at != nil {
			index = at[index]
		}
		name := words.Capital(s.jobName("jobs[" + strconv.Itoa(index) + "]"))
		entries := map[string]money.Amount{}
		for _, e := range c.Lines.All() {
			entries[e.Line] = e.Amount
		}
		d.Certificates = append(d.Certificates, s.lines(name, c.Certificate, entries))
	}
	if len(d.Certificates) == 0 && !d.Final {
		return s.sketch()
	}
	return d
}

// sketch is a draft from the little that is known before any pay is.
func (s *Session) sketch() Draft {
	entries := map[string]money.Amount{}
	c := household.Certificate{Status: s.walk.household().Status.OnCertificate()}
	for _, standing := range s.walk.standings() {
		switch {
		case standing.ChildCredit:
			entries["3a"] = entries["3a"].Add(s.y.now.Form.PerChild)
		case standing.OtherCredit:
			entries["3b"] = entries["3b"].Add(s.y.now.Form.PerOther)
		}
	}
	entries["3"] = entries["3a"].Add(entries["3b"])
	return Draft{Certificates: []DraftCertificate{s.lines(words.Capital(s.jobName("jobs[0]")), c, entries)}}
}

// jobName is how people read of a job, by its place in the file.
func (s *Session) jobName(prefix string) string {
	for i := range s.walk.steps {
		if about := s.walk.steps[i].about; about.prefix == prefix {
			return about.name
		}
	}
	return s.walk.phrase("job")
}

// lines are a certificate's lines as the draft shows them.
func (s *Session) lines(job string, c household.Certificate, entries map[string]money.Amount) DraftCertificate {
	d := DraftCertificate{Job: job, Exempt: c.Exempt}
	for _, l := range draftLines {
		line := DraftLine{Line: s.walk.phrase("line_" + l.line), Label: s.walk.phrase("label_" + l.line), Open: s.openThrough(l.until)}
		switch {
		case l.line == "1c" && s.walk.get("interview.married").is("yes") && !s.walk.get("interview.file_jointly").given(): // the status is open
		case l.line == "1c" && s.doc.Has("filing_status"):
			line.Text = s.walk.phrase("box_" + c.Status.String())
		case l.line == "2c" && c.MultipleJobs:
			line.Text = s.walk.phrase("checked")
		case entries[l.line].IsPositive():
			line.Text = s.walk.phrase("amount", "amount", entries[l.line])
		}
		d.Lines = append(d.Lines, line)
	}
	return d
}

// openThrough reports whether a question is open in a chapter or before.
func (s *Session) openThrough(chapter int) bool {
	return slices.ContainsFunc(s.walk.steps, func(at step) bool { return at.open() && at.chapter <= chapter })
}
