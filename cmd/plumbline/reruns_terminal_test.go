package main

// juneStub is a couple with a job and a stub each, and some interest.
var juneStub = book{
	"interview.way_in":                  pick(3),
	"interview.married":                 pick(2),
	"interview.file_jointly":            same{},
	"interview.jobs":                    text("1"),
	"jobs[0].state":                     same{},
	"interview.spouse_jobs":             text("1"),
	"jobs[1].state":                     same{},
	"interview.people":                  text("0"),
	"interview.income":                  picks{1},
	"interview.reductions":              picks{},
	"self.can_be_claimed":               yes(false),
	"jobs[0].name":                      text("Tern & Daughters"),
	"interview.job_1_special":           picks{},
	"jobs[0].pay_frequency":             everyTwoWeeks,
	"jobs[0].year_to_date.payday":       text("2026-06-12"),
	"jobs[0].year_to_date.taxable_pay":  text("28800"),
	"jobs[0].year_to_date.federal_tax":  text("2471.04"),
	"interview.job_1_pay_known":         pick(2),
	"jobs[0].taxable_pay":               text("2400"),
	"interview.job_1_on_file":           currentForm,
	"jobs[0].certificate.filing_status": same{},
	"interview.job_1_lines":             picks{},
	"jobs[1].name":                      text("Mill Lane Bakery"),
	"interview.spouse_job_1_special":    picks{},
	"jobs[1].pay_frequency":             pick(1),
	"interview.spouse_job_1_stub":       yes(true),
	"jobs[1].year_to_date.payday":       text("6/11/2026"),
	"jobs[1].year_to_date.taxable_pay":  text("17,250"),
	"jobs[1].year_to_date.federal_tax":  text("391"),
	"interview.spouse_job_1_pay_known":  pick(2),
	"jobs[1].taxable_pay":               text("750"),
	"interview.spouse_job_1_on_file":    currentForm,
	"jobs[1].certificate.filing_status": same{},
	"interview.spouse_job_1_lines":      picks{},
	"income.interest":                   text("640"),
	"payments.other_withholding":        same{},
	"payments.estimated_tax":            same{},
	"interview.last_year":               yes(true),
	"last_year.total_tax":               text("8120"),
	"last_year.adjusted_gross_income":   text("97200"),
	"wish.refund":                       same{},
	"wish.tell_employer":                same{},
	"wish.spread":                       same{},
}

var twoEarners = person{
	name: "two-earners", today: "2026-06-15", screens: 20, keys: 150,
	book: with(juneStub, book{
		"interview.income": picks{}, "interview.last_year": yes(false), "jobs[0].year_to_date.federal_tax": text("1443.72"),
	}),
}

// newerStubs are the stubs of both jobs in fall, at the pay of June.
var newerStubs = book{
	"interview.job_1_newer_stub":        yes(true),
	"jobs[0].year_to_date.payday":       text("9/18"),
	"jobs[0].year_to_date.taxable_pay":  text("45600"),
	"jobs[0].year_to_date.federal_tax":  text("2285.89"),
	"interview.spouse_job_1_newer_stub": yes(true),
	"jobs[1].year_to_date.payday":       text("9/17"),
	"jobs[1].year_to_date.taxable_pay":  text("27750"),
	"jobs[1].year_to_date.federal_tax":  text("629"),
	"interview.job_1_handed_in":         yes(false),
	"interview.spouse_job_1_handed_in":  yes(false),
}

// noStubs are no newer stubs, and what was advised handed in.
var noStubs = book{
	"interview.job_1_newer_stub":        yes(false),
	"interview.spouse_job_1_newer_stub": yes(false),
	"interview.job_1_handed_in":         yes(true),
	"interview.spouse_job_1_handed_in":  yes(true),
}

// inDecember is somebody whom December advises a form for the new year alone: the
// credits on file are too high (the figures are those of the interview's own tests).
var inDecember = person{name: "in-december", today: "2025-12-15", book: with(juneStub, book{
	"interview.married":                pick(1),
	"jobs[0].year_to_date.payday":      text("2025-12-12"),
	"jobs[0].year_to_date.taxable_pay": text("60000"),
	"jobs[0].year_to_date.federal_tax": text("3316.75"),
	"interview.job_1_lines":            picks{2},
	"jobs[0].certificate.credits":      text("2000"),
	"interview.income":                 picks{},
	"interview.last_year":              yes(false),
})}

// reruns are people who come back in fall, and in the new year.
var reruns = []person{
	{name: "two-newer-stubs", today: "2026-09-21", screens: 6, keys: 40, before: &twoEarners, book: with(newerStubs, book{
		"interview.changes": picks{},
	})},
	{name: "handed-in", today: "2026-09-21", screens: 5, keys: 10, before: &twoEarners, book: with(noStubs, book{
		"interview.changes": picks{},
	})},
	{name: "a-raise", today: "2026-09-21", screens: 9, keys: 50, before: &twoEarners, book: with(noStubs, book{
		"interview.changes":         picks{11},
		"interview.change_date":     text("9/1"),
		"interview.job_1_pay_known": same{},
		"jobs[0].taxable_pay":       text("2550"),
	})},
	{name: "a-birth", today: "2026-09-21", screens: 11, keys: 60, before: &twoEarners, book: with(noStubs, book{
		"interview.changes":                picks{4},
		"interview.change_date":            text("8/30"),
		"interview.people":                 same{},
		"dependents[0].relationship":       pick(1),
		"dependents[0].birth_date":         same{},
		"dependents[0].months_with_you":    same{},
		"dependents[0].ssn_valid_for_work": same{},
		"self.ssn_valid_for_work":          same{},
		"spouse.ssn_valid_for_work":        same{},
	})},
	{name: "in-january", today: "2026-01-12", screens: 6, keys: 25, before: &inDecember, book: book{
		"interview.changes":                 picks{},
		"interview.job_1_stub":              yes(true),
		"jobs[0].year_to_date.payday":       text("1/9"),
		"jobs[0].year_to_date.taxable_pay":  text("2400"),
		"jobs[0].year_to_date.federal_tax":  text("204.15"),
		"interview.job_1_handed_in_january": yes(true),
	}},
	{name: "a-job-ended", today: "2026-09-21", screens: 9, keys: 60, before: &twoEarners, book: with(newerStubs, book{
		"interview.changes":              picks{8},
		"interview.change_date":          text("9/17"),
		"interview.spouse_job_1_special": same{},
		"jobs[1].last_payday":            same{},
		"interview.spouse_job_1_stub":    yes(true),
	})},
}
