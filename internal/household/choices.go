package household

import (
	"strings"

	"example.com/plumbline/internal/words"
)

// Status is the filing status on the return (IRC 1(a)-(d), 2).
type Status int8

// The five filing statuses.
const (
	Single Status = iota
	MarriedFilingJointly
	MarriedFilingSeparately
	HeadOfHousehold
	QualifyingSurvivingSpouse
)

var statusNames = []string{"single", "married_filing_jointly", "married_filing_separately", "head_of_household", "qualifying_surviving_spouse"}

// Statuses are all filing statuses, in the order of their constants.
func Statuses() []Status {
	return []Status{Single, MarriedFilingJointly, MarriedFilingSeparately, HeadOfHousehold, QualifyingSurvivingSpouse}
}

// OnCertificate is the box of Form W-4, Step 1(c), that goes with the status.
func (s Status) OnCertificate() CertificateStatus {
	switch s {
	case MarriedFilingJointly, QualifyingSurvivingSpouse:
		return CertificateJoint
	case HeadOfHousehold:
		return CertificateHeadOfHousehold
	}
	return CertificateSingle
}

// CertificateStatus is one of the three boxes of Form W-4, Step 1(c).
type CertificateStatus int8

// The three boxes.
const (
	CertificateSingle          CertificateStatus = iota // single or married filing separately
	CertificateJoint                                    // married filing jointly or qualifying surviving spouse
	CertificateHeadOfHousehold                          // head of household
)

var certificateStatusNames = []string{"single", "married_filing_jointly", "head_of_household"}

// Earner says whose a job or a figure is.
type Earner int8

// The two people on a joint return.
const (
	OfSelf Earner = iota
	OfSpouse
)

var earnerNames = []string{"self", "spouse"}

// JobKind tells wages from a pension paid at intervals.
type JobKind int8

// The kinds of job.
const (
	Wages JobKind = iota
	Pension
)

var jobKindNames = []string{"wages", "pension"}

// Frequency is how often a job pays.
type Frequency int8

// The pay frequencies of Publication 15-T; not known when the answers do not say.
const (
	FrequencyUnknown Frequency = iota
	Daily
	Weekly
	Biweekly
	Semimonthly
	Monthly
	Quarterly
	Semiannual
	Annual
)

var frequencyNames = []string{"", "daily", "weekly", "biweekly", "semimonthly", "monthly", "quarterly", "semiannual", "annual"}

// Frequencies are the eight pay frequencies, shortest first.
func Frequencies() []Frequency {
	return []Frequency{Daily, Weekly, Biweekly, Semimonthly, Monthly, Quarterly, Semiannual, Annual}
}

// BonusTreatment is how payroll withholds from supplemental wages.
type BonusTreatment int8

// The two treatments of Publication 15, section 7.
const (
	FlatRate BonusTreatment = iota
	WithPaycheck
)

var bonusTreatmentNames = []string{"flat", "with_paycheck"}

// Edition tells today's certificate from the one with allowances.
type Edition int8

// The editions of Form W-4 that payroll computes differently.
const (
	Current Edition = iota // 2020 or later
	Before2020
)

var editionNames = []string{"current", "before_2020"}

// Marital is the marital box of a certificate of before 2020.
type Marital int8

// The three boxes of a certificate of before 2020.
const (
	MaritalSingle Marital = iota
	MaritalMarried
	MaritalMarriedAtSingleRate
)

var maritalNames = []string{"single", "married", "married_at_single_rate"}

// Relationship is how a dependent is related to the taxpayer (IRC 152).
type Relationship int8

// The relationships; a child unless the answers say otherwise.
const (
	Child Relationship = iota
	Stepchild
	FosterChild
	Sibling
	Descendant
	Parent
	OtherRelative
	HouseholdMember
)

var relationshipNames = []string{"child", "stepchild", "foster_child", "sibling", "descendant", "parent", "other_relative", "household_member"}

// CountsAs is what a person already knows about a dependent.
type CountsAs int8

// What a dependent counts as; left to the tests of IRC 152 when not said.
const (
	ByTheTests CountsAs = iota
	CountsAsChild
	CountsAsOther
	CountsAsNone
)

var countsAsNames = []string{"", "child", "other", "none"}

// EducationCredit is the credit claimed for a student (IRC 25A).
type EducationCredit int8

// The two education credits.
const (
	AmericanOpportunity EducationCredit = iota
	LifetimeLearning
)

var educationCreditNames = []string{"american_opportunity", "lifetime_learning"}

// Disclosure is how much employers may learn.
type Disclosure int8

// The two wishes.
const (
	TellAll Disclosure = iota
	ExtraOnly
)

var disclosureNames = []string{"all", "extra_only"}

// Aim is what the year should end on.
type Aim int8

// The aims. Where none is said, the refund decides.
const (
	AimUnsaid    Aim = iota
	AimEven          // neither a bill nor a refund
	AimRefund        // the refund wished for
	AimNoPenalty     // the least withholding that no penalty follows on
)

var aimNames = []string{"", "even", "refund", "no_penalty"}

// String is the name in the answers file.
func (x Aim) String() string { return aimNames[x] }

// MarshalText writes the name in the answers file.
func (x Aim) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *Aim) UnmarshalText(text []byte) error {
	return choice(x, text, aimNames, "aim")
}

// Spread is which job carries the correction.
type Spread int8

// The two wishes.
const (
	OnBestPaid Spread = iota
	InProportion
)

var spreadNames = []string{"best_paid", "even"}

// Place tells which poverty line counts.
type Place int8

// The places that have a poverty line of their own.
const (
	States Place = iota // the 48 states that touch each other, and the District of Columbia
	Alaska
	Hawaii
)

var placeNames = []string{"states", "alaska", "hawaii"}

// choice reads text as one of names, in small letters or capitals; the empty name
// means "not said" and is never read. what is the case of answers.choice that says
// what it should have been.
func choice[T ~int8](into *T, text []byte, names []string, what string) error {
	for i, n := range names {
		if n != "" && strings.EqualFold(n, string(text)) {
			*into = T(i)
			return nil
		}
	}
	if names[0] == "" {
		names = names[1:]
	}
	if near := meant(string(text), names); near != "" {
		return words.Fail("answers.choice_near", "text", string(text), "near", near)
	}
	return words.Fail("answers.choice", "text", string(text), "what", what, "names", names)
}

// synonyms are other words for names in the answers file, without the signs
// between words.
var synonyms = map[string]string{
	"everyday": "daily", "everyweek": "weekly", "onceaweek": "weekly",
	"everytwoweeks": "biweekly", "every2weeks": "biweekly", "everyotherweek": "biweekly", "fortnightly": "biweekly",
	"twiceamonth": "semimonthly", "twicemonthly": "semimonthly", "everymonth": "monthly", "onceamonth": "monthly",
	"everyquarter": "quarterly", "semiannually": "semiannual", "halfyearly": "semiannual", "twiceayear": "semiannual",
	"annually": "annual", "yearly": "annual", "everyyear": "annual",
	"joint": "married_filing_jointly", "marriedjoint": "married_filing_jointly", "marriedjointly": "married_filing_jointly",
}

// meant is the one of the names that was likely meant: written with other signs
// between its words, or said in other words. It is empty where none was.
func meant(text string, names []string) string {
	bare := func(s string) string {
		return strings.NewReplacer(" ", "", "-", "", "_", "").Replace(strings.ToLower(s))
	}
	for _, n := range names {
		if b := bare(text); bare(n) == b || synonyms[b] == n {
			return n
		}
	}
	return ""
}

// String is the name in the answers file.
func (x Status) String() string { return statusNames[x] }

// MarshalText writes the name in the answers file.
func (x Status) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *Status) UnmarshalText(text []byte) error {
	return choice(x, text, statusNames, "status")
}

// String is the name in the answers file.
func (x CertificateStatus) String() string { return certificateStatusNames[x] }

// MarshalText writes the name in the answers file.
func (x CertificateStatus) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *CertificateStatus) UnmarshalText(text []byte) error {
	return choice(x, text, certificateStatusNames, "certificate_status")
}

// String is the name in the answers file.
func (x Earner) String() string { return earnerNames[x] }

// MarshalText writes the name in the answers file.
func (x Earner) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *Earner) UnmarshalText(text []byte) error {
	return choice(x, text, earnerNames, "earner")
}

// String is the name in the answers file.
func (x JobKind) String() string { return jobKindNames[x] }

// MarshalText writes the name in the answers file.
func (x JobKind) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *JobKind) UnmarshalText(text []byte) error {
	return choice(x, text, jobKindNames, "job_kind")
}

// String is the name in the answers file.
func (x Frequency) String() string { return frequencyNames[x] }

// MarshalText writes the name in the answers file.
func (x Frequency) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *Frequency) UnmarshalText(text []byte) error {
	return choice(x, text, frequencyNames, "frequency")
}

// String is the name in the answers file.
func (x BonusTreatment) String() string { return bonusTreatmentNames[x] }

// MarshalText writes the name in the answers file.
func (x BonusTreatment) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *BonusTreatment) UnmarshalText(text []byte) error {
	return choice(x, text, bonusTreatmentNames, "bonus")
}

// String is the name in the answers file.
func (x Edition) String() string { return editionNames[x] }

// MarshalText writes the name in the answers file.
func (x Edition) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *Edition) UnmarshalText(text []byte) error {
	return choice(x, text, editionNames, "edition")
}

// String is the name in the answers file.
func (x Marital) String() string { return maritalNames[x] }

// MarshalText writes the name in the answers file.
func (x Marital) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *Marital) UnmarshalText(text []byte) error {
	return choice(x, text, maritalNames, "marital")
}

// String is the name in the answers file.
func (x Relationship) String() string { return relationshipNames[x] }

// MarshalText writes the name in the answers file.
func (x Relationship) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *Relationship) UnmarshalText(text []byte) error {
	return choice(x, text, relationshipNames, "relationship")
}

// String is the name in the answers file.
func (x CountsAs) String() string { return countsAsNames[x] }

// MarshalText writes the name in the answers file.
func (x CountsAs) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *CountsAs) UnmarshalText(text []byte) error {
	return choice(x, text, countsAsNames, "counts_as")
}

// String is the name in the answers file.
func (x EducationCredit) String() string { return educationCreditNames[x] }

// MarshalText writes the name in the answers file.
func (x EducationCredit) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *EducationCredit) UnmarshalText(text []byte) error {
	return choice(x, text, educationCreditNames, "education_credit")
}

// String is the name in the answers file.
func (x Disclosure) String() string { return disclosureNames[x] }

// MarshalText writes the name in the answers file.
func (x Disclosure) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *Disclosure) UnmarshalText(text []byte) error {
	return choice(x, text, disclosureNames, "disclosure")
}

// String is the name in the answers file.
func (x Spread) String() string { return spreadNames[x] }

// MarshalText writes the name in the answers file.
func (x Spread) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *Spread) UnmarshalText(text []byte) error {
	return choice(x, text, spreadNames, "spread")
}

// String is the name in the answers file.
func (x Place) String() string { return placeNames[x] }

// MarshalText writes the name in the answers file.
func (x Place) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the name in the answers file.
func (x *Place) UnmarshalText(text []byte) error {
	return choice(x, text, placeNames, "place")
}
