package payroll

import "example.com/plumbline/internal/household"

// ClaimEnds is the last day on which payroll goes by a claim to be exempt in the
// job's year, and whether the claim ends within it. One made in an earlier year
// does; one of this year holds until the next. A claim with no CountsFrom is of
// an unknown year: it is taken to hold, so that nothing is counted on that may
// not be withheld. A pension's choice of no withholding does not end by itself.
//
// 26 CFR 31.3402(n)-1, 31.3402(f)(4)-2(c); Publication 15, section 9. Form W-4P,
// "Choosing not to have income tax withheld".
func (j *JobYear) ClaimEnds(c *household.Certificate) (last household.Date, ends bool) {
	if c == nil || !c.Exempt || j.job.Kind != household.Wages || c.CountsFrom.IsZero() || c.CountsFrom.Year >= j.year {
		return household.Date{}, false
	}
	return j.y.ClaimsRenewedBy(j.year), true
}

// AfterClaim is the certificate by which payroll withholds once a claim to be
// exempt has ended: the last one that makes no such claim; nil, withheld from as
// single with no other entries, where none is known.
//
// 26 CFR 31.3402(f)(4)-2(c); Publication 15 (2025), section 9, which has single
// with no other entries. The last valid certificate before it: from memory.
func (j *JobYear) AfterClaim() *household.Certificate {
	if c := j.job.Certificate; c != nil && !c.Exempt {
		return c
	}
	for i := len(j.job.EarlierCertificates) - 1; i >= 0; i-- {
		if c := &j.job.EarlierCertificates[i]; !c.Exempt {
			return c
		}
	}
	return nil
}

// InForce is the certificate by which payroll withholds on a payday while it
// holds c.
func (j *JobYear) InForce(c *household.Certificate, payday household.Date) *household.Certificate {
	if last, ends := j.ClaimEnds(c); ends && payday.After(last) {
		return j.AfterClaim()
	}
	return c
}

// endClaims ends the claims to be exempt that end within the year: one whose run
// of paydays goes on after its last day is followed by a run of what counts then.
// That day falls within one run at most, which leaves the last place free for it.
func (j *JobYear) endClaims(ps *[4]phase) {
	for k := range ps {
		last, ends := j.ClaimEnds(ps[k].certificate)
		if !ends {
			continue
		}
		switch end := j.firstOn(last.AddDays(1)); {
		case end <= ps[k].from:
			ps[k].certificate = j.AfterClaim()
		case end < ps[k].to:
			copy(ps[k+2:], ps[k+1:3])
			ps[k+1] = phase{certificate: j.AfterClaim(), from: end, to: ps[k].to}
			ps[k].to = end
		}
	}
}
