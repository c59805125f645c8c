package household

// CertificateOn is the certificate that payroll went by on a payday, nil where
// it had none, and whether that is known: what payroll had before the oldest
// certificate in the answers counted is not.
func (j Job) CertificateOn(payday Date) (c *Certificate, known bool) {
	if j.Certificate == nil || j.counts(*j.Certificate, payday) {
		return j.Certificate, true
	}
	for i := len(j.EarlierCertificates) - 1; i >= 0; i-- {
		if j.counts(j.EarlierCertificates[i], payday) {
			return &j.EarlierCertificates[i], true
		}
	}
	return nil, false
}

func (j Job) counts(c Certificate, payday Date) bool {
	return !payday.Before(j.PaydayOf(c.CountsFrom))
}
