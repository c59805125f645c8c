package household

import (
	"strings"

	"example.com/plumbline/internal/money"
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
	Forecast  *Forecast         `yaml:"forecast"`   // what the last results forecast
	Earlier   *Household        `yaml:"earlier"`    // the facts as they were when the person came back
}

// IDs are names of questions or jobs, with spaces between them.
type IDs []string

// UnmarshalText reads ids.
func (i *IDs) UnmarshalText(text []byte) error {
	*i = strings.Fields(string(text))
	return nil
}

// Forecast is what results showed for the rest of their year.
type Forecast struct {
	Balance money.Amount  `yaml:"balance"`
	Jobs    []JobForecast `yaml:"jobs"`
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
