package paystub

import "example.com/plumbline/internal/words"

// Doubts are what to check on a stub before anybody goes by it, each in a sentence
// with the job's name: figures that cannot be right together, and federal tax that
// the certificate in the answers does not make and nothing that payroll may do
// explains. There are none where the stub is right, may be right on pay that varied,
// or cannot be judged; nor where it is off by less than a dollar a paycheck, which
// moves no advice.
func (s Stub) Doubts() []words.Text {
	var all []words.Text
	for _, q := range s.Questions {
		all = append(all, words.T("stub.doubt.question", "job", s.Name, "what", q))
	}
	if len(all) > 0 || !s.Unread.IsZero() || !s.taxIsWrong() {
		return all
	}
	cause := words.T("stub.doubt.no_cause")
	if len(s.Explanations) > 0 && s.Explanations[0].Exact {
		cause = words.T("stub.doubt.cause", "what", s.Explanations[0].What)
	}
	return append(all, words.T("stub.doubt.tax", "job", s.Name, "basis", string(s.Basis),
		"shown", s.FederalTax.Actual, "expected", s.FederalTax.Expected, "cause", cause))
}

// taxIsWrong reports federal tax that is far from what it should be, for no reason
// that payroll may have.
func (s Stub) taxIsWrong() bool {
	c := s.FederalTax
	if c.Right || c.MayBeRight() || len(s.Explanations) > 0 && s.Explanations[0].Allowed {
		return false
	}
	return c.Expected.Sub(c.Actual).Abs().More(nearEnough.Times(s.Paychecks))
}
