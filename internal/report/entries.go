package report

import (
	"fmt"
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
)

// What an entry is for, in plain words.
const (
	statusLabel    = "Filing status"
	boxLabel       = "Box for two jobs"
	childrenLabel  = "Children under 17"
	othersLabel    = "Other dependents"
	creditsLabel   = "Credits in all"
	incomeLabel    = "Other income, for the year"
	deductionLabel = "Deductions, for the year"
	extraLabel     = "Extra, from each paycheck"
	exemptLabel    = "Exempt from withholding"
)

// leaveEmpty stands where nothing is written.
const leaveEmpty = "leave empty"

// allEntries are all places of a certificate in the order of its steps, the
// empty ones too, without the reasons: what one employer may see.
func allEntries(c certificate.JobCertificate, y *tables.Year) Entries {
	entries := Entries{{Step: "Step 1(c)", Label: statusLabel, Write: certificateStatusWords[c.Certificate.Status]}}
	if c.Kind == household.Wages {
		write := leaveEmpty
		if c.Certificate.MultipleJobs {
			write = "check the box"
		}
		entries = append(entries, FormEntry{Step: "Step 2(c)", Label: boxLabel, Write: write})
	}
	for _, e := range c.Lines.All() {
		write := leaveEmpty
		if e.Amount.IsPositive() {
			write = e.Amount.GroupedDollars()
		}
		entries = append(entries, FormEntry{Step: stepName(e.Line, y), Label: lineLabels[e.Line], Write: write})
	}
	if c.Certificate.Exempt {
		entries = append(entries, exemptEntry(y))
	}
	return entries
}

// lineLabels say what each line is for.
var lineLabels = map[string]string{
	"3a": childrenLabel, "3b": othersLabel, "3": creditsLabel,
	"4a": incomeLabel, "4b": deductionLabel, "4c": extraLabel,
}

// stepName is a line as the year's form names it. Until 2025 the two fields
// inside Step 3 had no letters.
func stepName(line string, y *tables.Year) string {
	if len(line) < 2 || line[0] == '3' && y != nil && y.Form.Extended == nil {
		return "Step " + line[:1]
	}
	return fmt.Sprintf("Step %s(%s)", line[:1], line[1:])
}

// exemptEntry claims exemption: a box of its own from 2026, a word before.
func exemptEntry(y *tables.Year) FormEntry {
	if y != nil && !y.Form.ExemptBox {
		return FormEntry{Step: "Step 4(c)", Label: exemptLabel, Write: `write "Exempt" below it`}
	}
	return FormEntry{Step: "Exempt", Label: exemptLabel, Write: "check the box"}
}

// reasonedEntries are what to write, each with its reason, and the steps that
// stay empty.
func reasonedEntries(c certificate.JobCertificate, h household.Household, y *tables.Year) (entries Entries, empty []string) {
	reasons := map[string]string{
		"Step 1(c)": statusReasons[h.Status],
		"Step 2(c)": "There are two jobs, and the box is checked for both: payroll then withholds from each as from half of the whole.",
		"Exempt":    "You had no tax to pay last year and expect none this year.",
	}
	for _, e := range c.Lines.All() {
		if e.Reason != "" {
			reasons[stepName(e.Line, y)] = sentence(e.Reason)
		}
	}
	for _, e := range allEntries(c, y) {
		if e.Write == leaveEmpty {
			empty = append(empty, strings.TrimPrefix(e.Step, "Step "))
			continue
		}
		e.Reason = reasons[e.Step]
		entries = append(entries, e)
	}
	return entries, empty
}

// statusReasons say why a box of Step 1(c) is the one, by the return expected.
var statusReasons = map[household.Status]string{
	household.Single:                    "You expect to file as single.",
	household.MarriedFilingJointly:      "You expect to file one return together.",
	household.MarriedFilingSeparately:   "You expect to file a return of your own, apart from your spouse.",
	household.HeadOfHousehold:           "You expect to file as head of household: unmarried, and paying more than half of the home of a child or relative.",
	household.QualifyingSurvivingSpouse: "You expect to file as a surviving spouse.",
}

// statusOnly reports whether a certificate holds the status and nothing more.
func statusOnly(c household.Certificate) bool {
	return !c.MultipleJobs && !c.Exempt &&
		money.Sum(c.Credits, c.OtherIncome, c.Deductions, c.Extra).IsZero()
}

// writeBlocks are what to write on one certificate, with the reasons.
func writeBlocks(c certificate.JobCertificate, h household.Household, y *tables.Year) []Block {
	form := formName(c.Kind)
	if c.Keep {
		return []Block{
			Subheading(c.Name + ": nothing to hand in"),
			Paragraph(fmt.Sprintf("The %s on file stays: %s.", form, certificateWords(c.Certificate))),
		}
	}
	entries, empty := reasonedEntries(c, h, y)
	blocks := []Block{Subheading(fmt.Sprintf("%s: a new %s", c.Name, form)), entries}
	switch {
	case statusOnly(c.Certificate):
		blocks = append(blocks, Paragraph("Then your name and address, signature and date, nothing more. All other steps stay empty."))
	case len(empty) > 0:
		blocks = append(blocks, Paragraph("Leave empty: "+listed(empty, "and")+"."))
	}
	return blocks
}

// certificateWords is a certificate in one line.
func certificateWords(c household.Certificate) string {
	if c.Exempt {
		return "exempt"
	}
	var parts []string
	if c.Edition == household.Before2020 {
		parts = append(parts, "before 2020", strings.ReplaceAll(c.Marital.String(), "_", " "), fmt.Sprintf("allowances %d", c.Allowances))
	} else {
		parts = append(parts, certificateStatusWords[c.Status])
		if c.MultipleJobs {
			parts = append(parts, "box 2(c) checked")
		}
		for _, e := range []struct {
			step   string
			amount money.Amount
		}{{"3", c.Credits}, {"4(a)", c.OtherIncome}, {"4(b)", c.Deductions}} {
			if e.amount.IsPositive() {
				parts = append(parts, "Step "+e.step+" "+e.amount.GroupedDollars())
			}
		}
	}
	if c.Extra.IsPositive() {
		parts = append(parts, "extra "+c.Extra.GroupedDollars()+" a paycheck")
	}
	return strings.Join(parts, ", ")
}
