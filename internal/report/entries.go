package report

import (
	"fmt"
	"slices"
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
)

// leaveEmpty stands where nothing is written.
const leaveEmpty = "leave empty"

// checkIt stands where a box is checked.
const checkIt = "check the box"

// entryLabels say what each line of a certificate is for.
var entryLabels = map[string]string{
	"3a": "Children under 17",
	"3b": "Other dependents",
	"3":  "Credits in all",
	"4a": "Other income, for the year",
	"4b": "Deductions, for the year",
	"4c": "Extra, from each paycheck",
}

// statusReasons say why a box of Step 1(c) is the one, by the return expected.
var statusReasons = map[household.Status]string{
	household.Single:                    "You expect to file as single.",
	household.MarriedFilingJointly:      "You expect to file one return together.",
	household.MarriedFilingSeparately:   "You expect to file a return of your own, apart from your spouse.",
	household.HeadOfHousehold:           "You expect to file as head of household: unmarried, and paying more than half of the home of a child or relative.",
	household.QualifyingSurvivingSpouse: "You expect to file as a surviving spouse.",
}

const (
	boxReason    = "There are two jobs, and both certificates have the box checked: payroll then gives each job half of what one job alone would get free of tax."
	exemptReason = "You had no tax to pay last year and expect none this year."
)

// allEntries are all places of a certificate in the order of its steps, the
// empty ones too, without the reasons: what one employer may see.
func allEntries(c certificate.JobCertificate, y *tables.Year) Entries {
	status := FormEntry{Step: "Step 1(c)", Label: "Filing status", Write: certificateStatusWords[c.Certificate.Status]}
	if c.Certificate.Exempt {
		status.Write = leaveEmpty // Form W-4 (2026) p. 2: Steps 1(a), 1(b) and 5, and no other
	}
	entries := Entries{status}
	if c.Kind == household.Wages {
		box := FormEntry{Step: "Step 2(c)", Label: "Box for two jobs", Write: leaveEmpty}
		if c.Certificate.MultipleJobs {
			box.Write = checkIt
		}
		entries = append(entries, box)
	}
	for _, e := range c.Lines.All() {
		entry := FormEntry{Step: stepName(e.Line, y), Label: entryLabels[e.Line], Write: leaveEmpty}
		if e.Line == "4c" && c.Kind == household.Pension {
			entry.Label = "Extra, from each payment"
		}
		if e.Amount.IsPositive() {
			entry.Write = e.Amount.GroupedDollars()
		}
		entries = append(entries, entry)
	}
	if c.Certificate.Exempt {
		entries = append(entries, exemptEntry(y))
	}
	return entries
}

// stepName is a line as the year's form names it. Until 2025 the two fields
// inside Step 3 had no letters.
func stepName(line string, y *tables.Year) string {
	if len(line) == 1 || line[0] == '3' && y.Form.Extended == nil {
		return "Step " + line[:1]
	}
	return fmt.Sprintf("Step %s(%s)", line[:1], line[1:])
}

// exemptEntry claims exemption: a box of its own from 2026, a word before.
func exemptEntry(y *tables.Year) FormEntry {
	e := FormEntry{Step: "Exempt", Label: "Exempt from withholding", Write: checkIt}
	if !y.Form.ExemptBox {
		e.Step, e.Write = "Step 4(c)", `write "Exempt" in the space below it`
	}
	return e
}

// reasonedEntries are what to write on a certificate for a return of a status,
// each entry with its reason, and the steps that stay empty. A step of several
// fields is empty when all of them are.
func reasonedEntries(c certificate.JobCertificate, s household.Status, y *tables.Year) (entries Entries, empty []string) {
	reasons := map[string]string{"Filing status": statusReasons[s], "Box for two jobs": boxReason, "Exempt from withholding": exemptReason}
	for _, e := range c.Lines.All() {
		reasons[entryLabels[e.Line]] = sentence(e.Reason)
	}
	for _, e := range allEntries(c, y) {
		if e.Write == leaveEmpty {
			empty = append(empty, e.Step)
			continue
		}
		e.Reason = reasons[strings.Replace(e.Label, "payment", "paycheck", 1)]
		entries = append(entries, e)
	}
	empty = slices.DeleteFunc(slices.Compact(empty), func(step string) bool {
		return slices.ContainsFunc(entries, func(e FormEntry) bool { return e.Step == step })
	})
	return entries, each(empty, func(step string) string { return strings.TrimPrefix(step, "Step ") })
}

// writeBlocks are what to write on one certificate and why.
func writeBlocks(c certificate.JobCertificate, s household.Status, y *tables.Year) []Block {
	form := formName(c.Kind)
	if c.Keep {
		return []Block{
			Subheading(c.Name + ": nothing to hand in"),
			Paragraph(fmt.Sprintf("The %s on file stays: %s.", form, certificateWords(c.Certificate))),
		}
	}
	entries, empty := reasonedEntries(c, s, y)
	blocks := []Block{Subheading(fmt.Sprintf("%s: a new %s", c.Name, form)), entries}
	switch {
	case statusOnly(c.Certificate):
		blocks = append(blocks, Paragraph("Besides that your name and address, your signature and the date: nothing more. All other steps stay empty."))
	case len(empty) > 0:
		blocks = append(blocks, Paragraph("Leave empty: "+listed(empty, "and")+"."))
	}
	return blocks
}

// withoutReasons are the entries alone, but for those of some labels.
func (b Entries) withoutReasons(except []string) Entries {
	return each(b, func(e FormEntry) FormEntry {
		if !slices.Contains(except, e.Label) {
			e.Reason = ""
		}
		return e
	})
}

// statusOnly reports whether a certificate holds the status and nothing more.
func statusOnly(c household.Certificate) bool {
	return !c.MultipleJobs && !c.Exempt &&
		money.Sum(c.Credits, c.OtherIncome, c.Deductions, c.Extra).IsZero()
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
