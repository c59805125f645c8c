package interview

// Kind is how a question is answered. A front end needs nothing else to
// choose its input.
type Kind int8

// The kinds of question. Every answer is text: the value of an option, several
// values with commas between them, true or false, an amount, a whole number, a
// date, or words.
const (
	Choice Kind = iota
	Several
	YesNo
	Amount
	Whole
	Day
	Words
	Named // one of more options than a list can show, typed by its name or its value
)

// None is the answer to a question of kind Several when nothing in its list
// applies. It is no option of its own; a front end may offer it so.
const None = "none"

// Unknown is the answer of someone who does not know, where Question.IfUnknown
// says what is then assumed.
const Unknown = "unknown"

// Question is one question as it is to be shown, its wording filled in.
type Question struct {
	Key     string // where the answer is in the answers file: "jobs[0].pay_frequency"
	Chapter string // title of the chapter
	About   string // whose or which: "Harbor Clinic", "your child born in 2020"; empty when it is plain
	Label   string // a few words, for the review page
	Text    string // the question
	Why     string // why it is asked
	Where   string // where the figure is on a pay stub or a return; may be empty
	// FormLine is what the answer bears on: "Step 3(a)".
	FormLine string
	Kind     Kind
	Hours    bool     // an Amount is of hours, not of dollars
	Month    bool     // of a Whole: a month of the year, which can be named
	Options  []Option // of Choice, Several and YesNo

	IfUnknown     string // that Unknown is an answer, and what is then assumed; empty where it is none
	Default       string // a sensible answer; empty when there is none
	DefaultReason string // why it is sensible
	Answer        string // the answer given earlier, as Session.Answer takes it; empty when there is none
	Again         bool   // Answer was given earlier and must be confirmed
	Notice        string // to be shown before the question: what the answers so far have led to, and why
}

// Option is one answer to choose.
type Option struct {
	Value string // what Session.Answer takes
	Label string
	Help  string // may be empty
}

// Prefill is the answer to start from: the earlier one, else the default.
func (q Question) Prefill() string {
	if q.Answer != "" {
		return q.Answer
	}
	return q.Default
}

// Answered is a question with its answer, as the review page shows it.
type Answered struct {
	Key     string // for Session.GoTo
	Chapter string
	About   string // whose or which, as in Question
	Label   string
	Answer  string // as people read it: "$2,400.00", "June 12, 2026"
	Open    bool   // not answered yet, or to be confirmed
}

// State is how far a chapter is.
type State int8

// The states of a chapter.
const (
	Ahead State = iota
	Current
	Done
)

// Progress is how far the interview is. It counts chapters, because how many
// questions are to come depends on the answers.
type Progress struct {
	Chapters []Chapter
	Done     int // chapters
	Left     int // chapters, with the current one: the most that can still come
}

// Chapter is one chapter of the interview.
type Chapter struct {
	Title string
	State State
	// Answered and Open are the questions answered, and those known to be
	// still open; more may follow from the answers.
	Answered, Open int
}
