package report

import (
	"fmt"

	"example.com/plumbline/internal/certificate"
)

// EmployerPages are pages to copy from, one for each certificate to hand in, in
// the order of the form's steps. A page holds what that employer (or payer of a
// pension) will read on the form and nothing else: no reason, no other job, no
// spouse, no figure of the year. A job whose certificate stays has no page.
func EmployerPages(r certificate.Result) []Page {
	return employerPages(r, r.TaxYear, r.Recommended)
}

// JanuaryPages are the same for the certificates to hand in so that they count
// next year; none where those of this year may stay.
func JanuaryPages(r certificate.Result) []Page {
	if r.January == nil {
		return nil
	}
	return employerPages(r, r.January.TaxYear, r.January.Plan)
}

func employerPages(r certificate.Result, year int, plan certificate.Plan) []Page {
	var pages []Page
	for _, c := range plan.Certificates {
		if c.Keep {
			continue
		}
		p := Page{
			AsOf:     r.Household.AsOf,
			Title:    fmt.Sprintf("%s (%d), to copy from", formName(c.Kind), year),
			Subtitle: "For " + shortName(c.Name) + ", in the order of the form's steps.",
		}
		p.add(
			Heading("Step 1: who you are"),
			Blanks{"First name and middle initial", "Last name", "Address", "City or town, state, ZIP code", "Social security number"},
			Heading("What to write"),
			allEntries(c, r.Tables),
			Heading("Step 5: sign"),
			Blanks{"Signature", "Date"},
			List{Items: employerCautions},
		)
		pages = append(pages, p)
	}
	return pages
}
