package household

import (
	"slices"
	"strings"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// InterviewLog is what the interview keeps for itself between two sittings. No
// computation reads it.
type InterviewLog struct {
	Gates     map[string]string `yaml:",inline"`    // answers to its own guiding questions, by question
	Kept      map[string]string `yaml:"kept"`       // answers that do not apply at present, by the question's id
	ToConfirm IDs               `yaml:"to_confirm"` // questions whose answers must be given again
	Beyond    IDs               `yaml:"beyond"`     // facts that count though no question asks for them
	ToTell    IDs               `yaml:"to_tell"`    // notices that the last answer brought and that must still be told
	NotKnown  IDs               `yaml:"not_known"`  // questions whose answer the person does not know: Doubts says what is assumed
	At        string            `yaml:"at"`         // the question that the person went back to
	Forward   bool              `yaml:"forward"`    // from there, go on one question at a time
	Returned  Date              `yaml:"returned"`   // the day of the sitting before this one
	WasYear   int               `yaml:"was_year"`   // the year of the answers before they were carried over
	Finished  Date              `yaml:"finished"`   // the day on which results were last shown
	Plan      string            `yaml:"plan"`       // the plan chosen at the results
	HadStub   IDs               `yaml:"had_stub"`   // the jobs that had a pay stub in the sitting before
	Forecast  *Forecast         `yaml:"forecast"`   // what this sitting's results forecast
	Earlier   *Household        `yaml:"earlier"`    // the facts as they were when the person came back

	LastForecast *Forecast   `yaml:"last_forecast"` // what the results of the sitting before forecast
	StillToPay   *StillToPay `yaml:"still_to_pay"`  // what was to be paid directly for the year before
}

// IDs are names of questions or jobs, with spaces between them.
type IDs []string

// UnmarshalText reads ids.
func (i *IDs) UnmarshalText(text []byte) error {
	*i = strings.Fields(string(text))
	return nil
}

// Forecast is what results showed for the rest of their year, and advised for
// the next.
type Forecast struct {
	Day         Date             `yaml:"day"` // on which they were shown; zero in a file of before it was noted
	Balance     money.Amount     `yaml:"balance"`
	Jobs        []JobForecast    `yaml:"jobs"`
	January     *JanuaryForecast `yaml:"january"`      // nil where nothing was to be handed in for next year
	PayDirectly []DirectPayment  `yaml:"pay_directly"` // what was to be paid for the year, by day
}

// JanuaryForecast is the new certificates advised for the year after.
type JanuaryForecast struct {
	TaxYear      int                  `yaml:"tax_year"`
	Certificates []JanuaryCertificate `yaml:"certificates"`
}

// ForYear is the certificate advised for a job in a year, by the job's id, and whether
// there is one.
func (f *Forecast) ForYear(year int, job string) (JanuaryCertificate, bool) {
	if f != nil && f.January != nil && f.January.TaxYear == year {
		for _, c := range f.January.Certificates {
			if c.Job == job {
				return c, true
			}
		}
	}
	return JanuaryCertificate{}, false
}

// JanuaryCertificate is the certificate advised for one job.
type JanuaryCertificate struct {
	Job         string       `yaml:"job"` // the job's id
	FirstPayday Date         `yaml:"first_payday"`
	Withholding money.Amount `yaml:"withholding_per_paycheck"` // from an ordinary one
	Certificate Certificate  `yaml:"certificate"`
}

// DirectPayment is a payment to the IRS, not through a paycheck.
type DirectPayment struct {
	Amount money.Amount `yaml:"amount"`
	By     Date         `yaml:"by"`
}

// StillToPay is what was to be paid directly for the year before, with days in
// this one.
type StillToPay struct {
	TaxYear int             `yaml:"tax_year"`
	Parts   []DirectPayment `yaml:"parts"`
}

// From are the parts to be paid by a day that has not passed, in words.
func (s *StillToPay) From(today Date) []words.Text {
	var parts []words.Text
	if s != nil {
		for _, p := range paidFrom(s.Parts, today) {
			parts = append(parts, words.T("answers.still_to_pay", "amount", p.Amount, "by", p.By))
		}
	}
	return parts
}

// Of is the forecast for a job by its id, and whether there is one.
func (f *Forecast) Of(job string) (JobForecast, bool) {
	if f != nil {
		for _, j := range f.Jobs {
			if j.Job == job {
				return j, true
			}
		}
	}
	return JobForecast{}, false
}

// PaidFrom are the payments of a forecast by a day on or after one.
func (f *Forecast) PaidFrom(day Date) []DirectPayment {
	if f == nil {
		return nil
	}
	return paidFrom(f.PayDirectly, day)
}

func paidFrom(all []DirectPayment, day Date) []DirectPayment {
	return slices.DeleteFunc(slices.Clone(all), func(p DirectPayment) bool { return p.By.Before(day) })
}

// JobForecast is what was forecast for one job.
type JobForecast struct {
	Job         string       `yaml:"job"`         // the job's id
	Through     Date         `yaml:"through"`     // the payday of the stub then; zero without one
	Withheld    money.Amount `yaml:"withheld"`    // through that day
	Paid        money.Amount `yaml:"paid"`        // taxable pay through that day
	Pay         money.Amount `yaml:"pay"`         // of an ordinary paycheck
	Before      money.Amount `yaml:"before"`      // from each paycheck until the new certificate counts
	From        Date         `yaml:"from"`        // the first payday on which it counts
	After       money.Amount `yaml:"after"`       // from each paycheck since
	New         bool         `yaml:"new"`         // the certificate differs from the one on file
	Certificate Certificate  `yaml:"certificate"` // as recommended
}
