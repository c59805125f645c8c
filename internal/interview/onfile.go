package interview

import (
	"example.com/plumbline/internal/household"
)

// The lines of a certificate that can be filled in, as the guide names them.
var certificateLines = map[string]string{"3": "credits", "4a": "other_income", "4b": "deductions", "4c": "extra"}

// askOnFile asks which certificate payroll goes by.
func (w *walk) askOnFile(g group) {
	status := w.household().Status.OnCertificate().String()
	suggested := w.statusSoFar().OnCertificate().String()
	if w.statusChanged() {
		suggested = "" // payroll may still have the one from before
	}
	w.askHandedIn(g)
	var onFile, lines answer
	w.together("certificate "+g.label, func() {
		onFile = w.guide(g, "on_file")
		if !onFile.given() || onFile.is("current") {
			w.askOf(g, "certificate.filing_status", suggesting(suggested))
			lines = w.guide(g, "lines", offering(offeredLines(g.pension)))
		}
	})
	switch onFile {
	case "not_sure":
		fits := w.fits(g)
		if len(fits) == 0 {
			w.derive(g, "certificate.filing_status", status)
			w.say(w.noticeOf(g, "certificate_assumed", "job", g.name))
			return
		}
		for field, text := range certificateFields(fits[0].Certificate) {
			w.derive(g, "certificate."+field, text)
		}
		w.say(w.noticeOf(g, "certificate_from_stub", "job", g.name, "what", fits[0].What, "rounded", answerOfBool(fits[0].Rounded)))
	case "current":
		if lines.has("exempt") {
			w.derive(g, "certificate.exempt", "true")
			return
		}
		if lines.has("2c") {
			w.derive(g, "certificate.multiple_jobs", "true")
		}
		w.together("entries "+g.label, func() {
			for _, line := range []string{"3", "4a", "4b", "4c"} {
				if lines.has(line) {
					w.askOf(g, "certificate."+certificateLines[line])
				}
			}
		})
	case "before_2020":
		w.derive(g, "certificate.edition", household.Before2020.String())
		w.together("old certificate "+g.label, func() {
			w.askOf(g, "certificate.marital")
			w.askOf(g, "certificate.allowances")
			w.askOf(g, "certificate.extra", suggesting("0"))
		})
	}
}

// offeredLines are the lines that a certificate can have: that of a pension,
// Form W-4P, has no box for two jobs.
func offeredLines(pension bool) []string {
	lines := []string{"3", "4a", "4b", "4c", "exempt"}
	if !pension {
		lines = append([]string{"2c"}, lines...)
	}
	return lines
}
