package main

import (
	"fmt"
	"strings"
)

// person is someone who goes through the whole interview, by keys and by
// lines. The people, firms and figures are invented.
type person struct {
	name, today string
	steps       []step
}

// step is one question, known by some of its words, with its answer.
type step struct {
	words  string
	answer answer
}

// answer is an answer, to be given either way.
type answer interface {
	line() string // typed at the line-by-line front end
	keys() string // pressed at the full-screen one
}

// pick is the number of an option, from 1.
type pick int

func (p pick) line() string { return fmt.Sprint(int(p)) }
func (p pick) keys() string { return "<home>" + strings.Repeat("<down>", int(p)-1) + "<enter>" }

// picks are the numbers of several options, in order; none of them is none.
type picks []int

func (p picks) line() string {
	if len(p) == 0 {
		return "none"
	}
	return strings.Trim(strings.ReplaceAll(fmt.Sprint([]int(p)), " ", ", "), "[]")
}

func (p picks) keys() string {
	keys, at := "<home>", 0 // where "None of these" stands
	for _, n := range p {
		keys += strings.Repeat("<down>", n-at) + "<space>"
		at = n
	}
	return keys + "<enter>"
}

// yes is an answer of yes or no.
type yes bool

func (y yes) line() string {
	if y {
		return "yes"
	}
	return "no"
}

func (y yes) keys() string { return y.line()[:1] }

// text is typed.
type text string

func (t text) line() string { return string(t) }
func (t text) keys() string { return string(t) + "<enter>" }

// same takes what is suggested.
type same struct{}

func (same) line() string { return "" }
func (same) keys() string { return "<enter>" }

// The places of options in questions that more than one person is asked.
const (
	everyTwoWeeks, twiceAMonth = pick(2), pick(3)
	currentForm                = pick(1)
)

var people = []person{
	{"new-hire", "2026-06-15", []step{
		{"What brings you here", pick(1)},
		{"Will you be married", pick(1)},
		{"How many jobs pay you", same{}},
		{"how many people live with you", same{}},
		{"will you have any of these", picks{}},
		{"lower your tax", picks{}},
		{"fitted to the part of 2026", yes(false)},
	}},
	{"marriage", "2026-06-15", []step{
		{"What brings you here", pick(2)},
		{"What has changed?", picks{1}},
		{"On which day", text("6/6/2026")},
		{"Will you be married", pick(2)},
		{"file one tax return together", same{}},
		{"How many jobs pay you", text("1")},
		{"How many jobs pay your spouse", text("1")},
		{"how many people live with you", same{}},
		{"will you have any of these", picks{}},
		{"lower your tax", picks{}},
		{"What shall we call your job?", text("Larkfield Books")},
		{"Does any of this hold for Larkfield Books", picks{}},
		{"How often does Larkfield Books pay?", everyTwoWeeks},
		{"pay stub of this year for Larkfield Books", yes(true)},
		{"which payday is on your last pay stub", text("6/12/2026")},
		{"how much taxable pay does the stub show", text("18200")},
		{"how much federal income tax has been withheld", text("1520")},
		{"How do you know your pay at Larkfield Books?", pick(2)},
		{"how much taxable pay is in one ordinary paycheck", text("1550")},
		{"Which certificate does payroll have for Larkfield Books", currentForm},
		{"Which box is checked", pick(1)},
		{"Which of these did you fill in", picks{}},
		{"What shall we call your spouse's job?", text("Quarry Street School")},
		{"Does any of this hold for Quarry Street School", picks{}},
		{"How often does Quarry Street School pay?", pick(4)},
		{"pay stub of this year for Quarry Street School", yes(false)},
		{"first payday of 2026 at Quarry Street School", text("1/30/2026")},
		{"How do you know your pay at Quarry Street School?", pick(2)},
		{"what is the salary for a whole year", text("41,400")},
		{"taken from your pay at Quarry Street School before tax", picks{1}},
		{"goes into the retirement plan before tax", text("120")},
		{"Which certificate does payroll have for Quarry Street School", pick(4)},
		{"tax return for 2025 at hand", yes(false)},
		{"What refund do you want", same{}},
		{"How much may the certificate tell", same{}},
		{"Which job should carry", same{}},
	}},
	{"birth", "2026-06-15", []step{
		{"What brings you here", pick(2)},
		{"What has changed?", picks{3}},
		{"On which day", text("5/20/2026")},
		{"Will you be married", pick(2)},
		{"file one tax return together", same{}},
		{"How many jobs pay you", text("1")},
		{"How many jobs pay your spouse", text("0")},
		{"how many people live with you", text("1")},
		{"claim you as a dependent", yes(false)},
		{"Who is the first person?", pick(1)},
		{"born?", text("5/20/2026")},
		{"valid for work", same{}},
		{"will you have any of these", picks{}},
		{"lower your tax", picks{}},
		{"Does any of this hold for your job", picks{}},
		{"How often does your job pay?", twiceAMonth},
		{"pay stub of this year for your job", yes(true)},
		{"which payday is on your last pay stub", text("6/15/2026")},
		{"how much taxable pay does the stub show", text("28600")},
		{"how much federal income tax has been withheld", text("1177")},
		{"How do you know your pay", pick(1)},
		{"how much is one ordinary paycheck before", text("2750")},
		{"taken from your pay at your job before tax", picks{1, 2}},
		{"goes into the retirement plan", text("110")},
		{"health, dental and vision insurance before tax", text("40")},
		{"Which certificate does payroll have", currentForm},
		{"Which box is checked", same{}},
		{"Which of these did you fill in", picks{}},
		{"Do you have a social security number", same{}},
		{"Does your spouse have a social security number", same{}},
		{"What refund do you want", same{}},
		{"How much may the certificate tell", same{}},
	}},
	{"june-stub", "2026-06-15", []step{
		{"What brings you here", pick(3)},
		{"Will you be married", pick(2)},
		{"file one tax return together", same{}},
		{"How many jobs pay you", text("1")},
		{"How many jobs pay your spouse", text("1")},
		{"how many people live with you", text("0")},
		{"will you have any of these", picks{1}},
		{"lower your tax", picks{}},
		{"claim you as a dependent", yes(false)},
		{"What shall we call your job?", text("Tern & Daughters")},
		{"Does any of this hold for Tern & Daughters", picks{}},
		{"How often does Tern & Daughters pay?", everyTwoWeeks},
		{"which payday is on your last pay stub", text("2026-06-12")},
		{"how much taxable pay does the stub show", text("28800")},
		{"how much federal income tax has been withheld", text("2471.04")},
		{"How do you know your pay", pick(2)},
		{"how much taxable pay is in one ordinary paycheck", text("2400")},
		{"Which certificate does payroll have for Tern & Daughters", currentForm},
		{"Which box is checked", same{}},
		{"Which of these did you fill in", picks{}},
		{"What shall we call your spouse's job?", text("Mill Lane Bakery")},
		{"Does any of this hold for Mill Lane Bakery", picks{}},
		{"How often does Mill Lane Bakery pay?", pick(1)},
		{"pay stub of this year for Mill Lane Bakery", yes(true)},
		{"which payday is on your last pay stub", text("6/11/2026")},
		{"how much taxable pay does the stub show", text("17,250")},
		{"how much federal income tax has been withheld", text("391")},
		{"How do you know your pay at Mill Lane Bakery", pick(2)},
		{"how much taxable pay is in one ordinary paycheck", text("750")},
		{"Which certificate does payroll have for Mill Lane Bakery", currentForm},
		{"Which box is checked", same{}},
		{"Which of these did you fill in", picks{}},
		{"How much interest will you have", text("640")},
		{"be withheld in 2026 from anything besides", same{}},
		{"How much do you pay yourself to the tax agency", same{}},
		{"tax return for 2025 at hand", yes(true)},
		{"What was the total tax", text("8120")},
		{"adjusted gross income on your return", text("97200")},
		{"What refund do you want", same{}},
		{"How much may the certificate tell", same{}},
		{"Which job should carry", same{}},
	}},
}
