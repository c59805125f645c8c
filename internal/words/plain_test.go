package words_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// refused are words that nobody would say across a desk, each with what to say
// in their place.
var refused = []struct{ word, say string }{
	{`\bstands?\b`, "is"},
	{`\bas things stand\b`, "as it is"},
	{`\banew\b`, "again"},
	{`\bshall\b`, "will or should"},
	{`\bhold(?:s|ing)?\b[^.]* against\b`, "compare with"},
	{`\bas far as\b`, "how much of"},
	{`\bbesides that\b`, "also, or then only"},
	{`\bthe own\b`, "their own"},
	{`\bit is to count\b`, "it should take effect"},
	{`\btaken to count\b|\bto count from\b`, "it should take effect with"},
	{`\bby your answers?\b`, "you said"},
	{`\btakes? (?:it|one of them|them) back\b`, "uncheck, or undo"},
	{`\btake back that\b`, "uncheck"},
	{`\b(?:ends?|ended|ending|lands?) even\b`, "you owe nothing and get nothing back"},
	{`\bas near as\b`, "what is left, in dollars"},
	{`\bend(?:s|ed)? [^ ]+ short\b`, "you would owe"},
	{`\bstill missing\b|\bwould be missing\b`, "you would still owe"},
	{`\bis wished\b|\byour wish\b`, "you want, or your goal"},
	{`\btax taken from it\b`, "comes out of each paycheck"},
	{`\bon \d+ paydays? this year\b`, "on how many paychecks, with their dates"},
	{`\bwithout it too much\b`, "what the line does"},
	{`\bthe only part\b|\bthe next part of\b`, "the amount and the day"},
	{`\bnot ruled out\b`, "possible"},
	{`\bpaying too late in the year\b`, "the underpayment penalty"},
	{`\bnothing due and nothing back\b`, "you owe nothing and get nothing back"},
	{`\basks? for other entries\b`, "change these"},
	{`\bcounted here would be lost\b`, "what to do if payroll is late"},
	{`\banother filing status on file\b`, "has you as, and what you expect"},
	{`\bcan undo what\b`, "what comes back, and how"},
	{`\bsignature and the date: nothing more\b`, "then add only"},
	{`\beach paycheck no change\b`, "take-home pay stays the same"},
	{`\baway from one\b`, "how much less or more refund"},
	{`\bpay for less than it is\b`, "what payroll counts"},
	{`\btaken as that\b`, "we took"},
	{`\bmade to fit that\b`, "adjusted for"},
	{`\blive with them\b`, "you and whom"},
	{`\bby a doctor's word\b`, "a doctor must confirm it"},
	{`\btake the middle\b`, "use the average"},
	{`\ba tenth more\b`, "110% of it"},
	{`\bits figures do not fit\b`, "these figures do not fit together"},
	{`\bby work\b`, "earnings"},
	{`\bcharacter that does not show\b`, "an invisible character"},
	{`\bis not what an? \w+ counts as\b`, "is not a value for"},
	{`\bplease look whether\b|\bit still holds\b`, "please check that it is still true"},
	{`\binterest, dividends and the like\b`, "the real things, with their amounts"},
	{`\bas far as it is taxed\b`, "how much of it is taxable"},
	{`\bwithheld from as the only one\b`, "each job withholds as if it were your only one"},
	{`\bgoes before any\b`, "overrides"},
	{`\bGive [a-z_]+_[a-z_]+\b`, "what people call it, not the key of the file"},
}

// TestPlainWords refuses such words in every entry, in the README and in the
// documents for people.
func TestPlainWords(t *testing.T) {
	files, err := filepath.Glob("../../docs/*.md")
	if err != nil || len(files) == 0 {
		t.Fatal("no documents", err)
	}
	for _, file := range append(files, "en.yaml", "../../README.md") {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range refused {
			pattern := regexp.MustCompile(`(?i)` + r.word)
			for n, line := range strings.Split(string(text), "\n") {
				if found := pattern.FindString(line); found != "" {
					t.Errorf("%s:%d: %q; say %s", filepath.Base(file), n+1, found, r.say)
				}
			}
		}
	}
}
