package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/plumbline/internal/words"
)

// templateColumn is a column of the template with its cells in the two invented rows.
type templateColumn struct{ key, first, second string }

func (p *program) templateCommand() *cobra.Command {
	var jobs, dependents int
	cmd := &cobra.Command{
		Use:  "template",
		Args: exactly(0, "flags"),
		RunE: func(cmd *cobra.Command, args []string) error { return p.template(jobs, dependents) },
	}
	fl := cmd.Flags()
	fl.IntVar(&jobs, "jobs", 1, "")
	fl.IntVar(&dependents, "dependents", 0, "")
	return cmd
}

func (p *program) template(jobs, dependents int) error {
	const most = 20
	if jobs < 0 || jobs > most || dependents < 0 || dependents > most {
		return wrongUsage(words.Fail("batch.template_size", "most", most))
	}
	year := p.today.Year
	columns := []templateColumn{
		{"id", "1001", "1002"},
		{"tax_year", fmt.Sprint(year), fmt.Sprint(year)},
		{"filing_status", "single", "married_filing_jointly"},
		{"self.birth_date", "1994-05-17", "1986-11-02"},
		{"spouse.birth_date", "", "1988-02-23"},
	}
	for i := range jobs {
		columns = append(columns, jobColumnsOf(fmt.Sprintf("jobs.%d.", i), year, i)...)
	}
	for i := range dependents {
		columns = append(columns, dependentColumnsOf(fmt.Sprintf("dependents.%d.", i), year, i)...)
	}
	columns = append(columns,
		templateColumn{"income.interest", "", "180"},
		templateColumn{"last_year.total_tax", "", "4120"},
		templateColumn{"last_year.adjusted_gross_income", "", "71300"},
	)
	rows := make([][]string, 3)
	for _, c := range columns {
		for i, cell := range []string{c.key, c.first, c.second} {
			rows[i] = append(rows[i], cell)
		}
	}
	for _, row := range rows {
		if _, err := fmt.Fprintln(p.stdout, string(sheetRow(row))); err != nil {
			return systemFailed(err)
		}
	}
	return nil
}

// jobColumnsOf are a job's columns; the first invented person has one job, the
// second as many as there are columns for, every other one the spouse's.
func jobColumnsOf(key string, year, i int) []templateColumn {
	names := []string{"Tern Bakery", "Alder Press", "Cove Dental"}
	earner := []string{"self", "spouse"}[i%2]
	columns := []templateColumn{
		{"name", "Heron Freight", names[i%len(names)]},
		{"earner", "self", earner},
		{"pay_frequency", "biweekly", "semimonthly"},
		{"taxable_pay", "1840.00", "2150.00"},
		{"first_payday", fmt.Sprintf("%d-01-09", year), fmt.Sprintf("%d-01-15", year)},
		{"year_to_date.payday", "", ""},
		{"year_to_date.taxable_pay", "", ""},
		{"year_to_date.federal_tax", "", ""},
		{"certificate.filing_status", "single", "married_filing_jointly"},
		{"certificate.multiple_jobs", "false", "false"},
		{"certificate.credits", "0", "0"},
		{"certificate.other_income", "0", "0"},
		{"certificate.deductions", "0", "0"},
		{"certificate.extra", "0", "0"},
	}
	for n := range columns {
		columns[n].key = key + columns[n].key
		if i > 0 {
			columns[n].first = ""
		}
	}
	return columns
}

// dependentColumnsOf are a dependent's columns, filled in for the second
// invented person.
func dependentColumnsOf(key string, year, i int) []templateColumn {
	born := fmt.Sprintf("%d-0%d-14", year-6-i, 1+i%9)
	return []templateColumn{
		{key + "name", "", strings.Join([]string{"child", fmt.Sprint(i + 1)}, " ")},
		{key + "relationship", "", "child"},
		{key + "birth_date", "", born},
		{key + "months_with_you", "", "12"},
	}
}
