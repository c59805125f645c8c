package certificate

import (
	"os"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/tables"
)

// TestMain gives the thousands of households room.
func TestMain(m *testing.M) {
	sample.CollectLess()
	os.Exit(m.Run())
}

// ledger is an independent replay of one job: payday by payday, with the tax on
// a single paycheck and nothing else of package payroll.
type ledger struct {
	withheld money.Amount // over all paydays to come
	least    money.Amount // pay left on the leanest payday on which the new certificate counts
	paydays  int          // on which it counts
	bonuses  money.Amount // withheld from one-time pay at the flat rate, which no certificate changes
	doubtful bool         // a flat-rate bonus where no income tax may have been withheld: payroll may not use the flat rate
}

func replay(h household.Household, job int, c *household.Certificate, from household.Date, y *tables.Year) ledger {
	j, l := h.Jobs[job], ledger{least: money.Dollars(1 << 40)}
	type paid struct {
		wages string
		c     *household.Certificate
	}
	known := map[paid]money.Amount{} // equal paychecks are figured once, to save time
	tax := func(wages money.Amount, c *household.Certificate) money.Amount {
		key := paid{wages.Text(), c}
		if _, ok := known[key]; !ok {
			known[key] = payroll.Withholding(payroll.Paycheck{Wages: wages, Frequency: j.Frequency, Kind: j.Kind}, c, y, payroll.Options{}, nil)
		}
		return known[key]
	}
	social := y.SocialSecurityTax.Rate.Add(y.SocialSecurityTax.MedicareRate)
	pay := j.OrdinaryPay()
	left := j.OneTimePay
	for _, d := range j.PaydaysToCome(h.TaxYear) {
		counts := j.Certificate
		isNew := !from.IsZero() && !d.Before(from)
		if isNew {
			counts = c
			l.paydays++
		}
		wages, flat := pay, money.Zero
		for _, o := range left {
			switch {
			case o.Payday != d:
				l.doubtful = true // a day between paydays: left to package payroll's own tests
			case o.Withholding == household.WithPaycheck || j.Kind == household.Pension:
				wages = wages.Add(o.Amount)
			default:
				flat = flat.Add(o.Amount.At(y.Payroll.Supplemental.Rate).ToCent())
				l.doubtful = l.doubtful || tax(pay, counts).IsZero() || counts != nil && counts.Exempt
			}
		}
		withheld := tax(wages, counts)
		l.withheld = money.Sum(l.withheld, withheld, flat)
		l.bonuses = l.bonuses.Add(flat)
		if isNew {
			takeHome := pay.Sub(tax(pay, counts))
			if j.Kind == household.Wages {
				takeHome = takeHome.Sub(pay.Add(j.Pretax.Retirement).At(social))
			}
			l.least = money.Min(l.least, takeHome)
		}
	}
	return l
}

// onPaydays puts one-time pay on the payday on or before its date, so that the
// replay can follow it; it is left out where there is none to come.
func onPaydays(h household.Household) household.Household {
	for i, j := range h.Jobs {
		var kept []household.OneTimePay
		for _, o := range j.OneTimePay {
			last := household.Date{}
			for _, d := range j.PaydaysToCome(h.TaxYear) {
				if !d.After(o.Payday) {
					last = d
				}
			}
			if !last.IsZero() {
				o.Payday = last
				kept = append(kept, o)
			}
		}
		h.Jobs[i].OneTimePay = kept
	}
	return h
}

// eachHousehold runs a check on random households, on all cores, until so many
// of them counted.
func eachHousehold(t *testing.T, n int, check func(seed uint64) (counts bool)) {
	var counted atomic.Int64
	var next atomic.Uint64
	var wg sync.WaitGroup
	newRandom(t, 0) // loads the tables once, before the rest share them
	for range runtime.GOMAXPROCS(0) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for counted.Load() < int64(n) && !t.Failed() {
				seed := next.Add(1)
				if seed > uint64(4*n) {
					t.Errorf("of %d households only %d count: the test says little", seed, counted.Load())
					return
				}
				if check(seed) {
					counted.Add(1)
				}
			}
		}()
	}
	wg.Wait()
	t.Logf("%d of %d households", counted.Load(), next.Load())
}

// On random households: every plan's figures are those of an independent
// replay; no plan asks the impossible; tuned lands wherever it is feasible, and
// wherever another plan does.
func TestPlansByReplay(t *testing.T) {
	eachHousehold(t, households, func(seed uint64) bool {
		h := onPaydays(newRandom(t, seed).Household())
		y := year(t, h.TaxYear)
		pr := newProjection(h, y, nil)
		f := pr.fillForm(nil)
		anyLands, tuned := false, Plan{}
		var seen []*candidate
		for _, d := range pr.candidates(f, pr.openJanuary(nil)) {
			if same := func(s *candidate) bool {
				return slices.EqualFunc(s.certs, d.certs, func(a, b household.Certificate) bool { return a.Same(&b) })
			}; d.name != PlanTuned && slices.ContainsFunc(seen, same) {
				continue
			}
			seen = append(seen, d.candidate)
			p := d.plan(d.name, f)
			checkPlan(t, seed, h, p, y)
			anyLands = anyLands || p.Lands && (p.Name == PlanForm || p.Name == PlanBox || p.Name == PlanPrivate || p.Name == PlanEven)
			if p.Name == PlanTuned {
				tuned = p
			}
		}
		if anyLands && !tuned.Lands {
			t.Errorf("seed %d: a plan lands and tuned does not: %v", seed, tuned.Balance)
		}
		// Where the step's income limit leaves no credit, Step 3 lowers nothing.
		can := isFeasible(h, tuned, y) && (pr.mayRaiseCredits() || !tuned.Left.IsPositive())
		if can && !tuned.Lands {
			t.Errorf("seed %d: tuned ends on %v, wish %v", seed, tuned.Balance, h.Wish.Refund)
		}
		return can
	})
}

// checkPlan holds a plan against the replay and against what a form and a
// paycheck can take.
func checkPlan(t *testing.T, seed uint64, h household.Household, p Plan, y *tables.Year) {
	toCome := money.Zero
	doubtful := false
	payers := map[int]JobCertificate{}
	for _, c := range p.Certificates {
		payers[c.Job] = c
		if c.Paydays < 1 {
			t.Errorf("seed %d %s: a certificate for %s, which pays no more", seed, p.Name, c.Name)
		}
		if !c.Keep && c.Certificate.Edition != household.Current {
			t.Errorf("seed %d %s: %s is to get a form of an older edition", seed, p.Name, c.Name)
		}
		for _, e := range c.Lines.All() {
			if e.Amount.IsNegative() || !e.Amount.Equal(e.Amount.DollarDown()) {
				t.Errorf("seed %d %s: line %s is %v", seed, p.Name, e.Line, e.Amount)
			}
		}
	}
	for _, i := range h.CountedJobs() {
		c, ok := payers[i]
		l := replay(h, i, &c.Certificate, c.FirstPayday, y)
		toCome, doubtful = toCome.Add(l.withheld), doubtful || l.doubtful
		if ok && l.paydays != c.Paydays {
			t.Errorf("seed %d %s: %s counts %d paydays, the calendar %d", seed, p.Name, c.Name, c.Paydays, l.paydays)
		}
		// The replay's social security knows no wage base, and no additional
		// Medicare tax: it is exact below both.
		j := h.Jobs[i]
		year := j.OrdinaryPay().Add(j.Pretax.Retirement).Times(y.Payroll.Periods.Of(j.Frequency) + 1)
		if ok && !c.Keep && year.Less(y.SocialSecurityTax.WageBase.Amount) && l.least.Less(money.Cents(-2)) {
			t.Errorf("seed %d %s: %s leaves %v of a paycheck of %v", seed, p.Name, c.Name, l.least, j.OrdinaryPay())
		}
	}
	if !doubtful && !toCome.Equal(p.WithholdingToCome) {
		t.Errorf("seed %d %s: withholding to come is %v, replayed %v", seed, p.Name, p.WithholdingToCome, toCome)
	}
	raised, lowered := false, false
	for _, c := range p.Certificates {
		raised, lowered = raised || c.Certificate.Extra.IsPositive(), lowered || strings.Contains(c.Lines.L3.Reason.Code, "more")
		if p.Name == PlanPrivate && !tellsNothing(c.Certificate) {
			t.Errorf("seed %d: the private plan writes more than an extra amount: %+v", seed, c.Certificate)
		}
	}
	if p.Name == PlanTuned && raised && lowered {
		t.Errorf("seed %d: one job is raised to make up what another is lowered by: %+v", seed, p.Certificates)
	}
	balance := money.Sum(p.WithheldSoFar, p.WithholdingToCome, p.OtherPayments, p.RefundableCredits).Sub(p.TotalTax)
	if !balance.Equal(p.Balance) {
		t.Errorf("seed %d %s: balance %v, added up %v", seed, p.Name, p.Balance, balance)
	}
	over := balance.Sub(h.Wish.Refund)
	n := 0
	for _, c := range p.Certificates {
		n += c.Paydays
	}
	if lands := !over.IsNegative() && over.Less(money.Dollars(int64(max(n, 1)))); lands != p.Lands {
		t.Errorf("seed %d %s: lands %v with %v over on %d paydays", seed, p.Name, p.Lands, over, n)
	}
}

// isFeasible reports whether certificates can land the year beyond doubt: the
// need lies between withholding nothing on every new payday and leaving, after
// social security and Medicare at their full rates, a dollar of each paycheck.
func isFeasible(h household.Household, tuned Plan, y *tables.Year) bool {
	need := tuned.TotalTax.Add(h.Wish.Refund).Sub(money.Sum(tuned.RefundableCredits, tuned.OtherPayments, tuned.WithheldSoFar))
	nothing := household.Certificate{Status: h.Status.OnCertificate(), Credits: money.Dollars(100_000_000)}
	blank := household.Certificate{Status: h.Status.OnCertificate()}
	least, most := money.Zero, money.Zero
	for _, i := range h.CountedJobs() {
		from := household.Date{}
		for _, c := range tuned.Certificates {
			if c.Job == i {
				from = c.FirstPayday
			}
		}
		low := replay(h, i, &nothing, from, y)
		high := replay(h, i, &blank, from, y)
		if low.doubtful || high.doubtful {
			return false
		}
		least = least.Add(low.withheld)
		most = most.Add(high.withheld)
		if high.paydays > 0 {
			extraMedicare := h.Jobs[i].OrdinaryPay().At(y.AdditionalMedicare.Rate)
			most = most.Add(high.least.Sub(extraMedicare).Sub(money.Dollars(1)).DollarDown().OrZero().Times(high.paydays)).Sub(money.Dollars(int64(high.paydays)))
		}
	}
	return len(tuned.Certificates) > 0 && !need.Less(least) && !need.More(most)
}

// Handing in what was advised, paying what was advised, and solving again on the
// day before the certificates count, leaves nothing more to hand in. Left aside is
// who wants a refund that could not be reached: once the tax is paid, what is left
// of it may be within what a paycheck can carry.
func TestAdviceIsStable(t *testing.T) {
	eachHousehold(t, households/5, func(seed uint64) bool {
		r := newRandom(t, seed)
		h := onPaydays(r.Household())
		h.Wish.FirstPayday = household.Job{}.PaidOn(r.Date(h.AsOf.AddDays(4), household.EndOfYear(h.TaxYear)))
		y := year(t, h.TaxYear)
		first, err := Solve(h, y, nil)
		if err != nil {
			t.Error(err)
			return false
		}
		again, err := Solve(taken(h, first, y), y, nil)
		if err != nil {
			t.Error(err)
			return false
		}
		if len(first.Irregular)+len(again.Irregular) > 0 {
			return false // a bonus that has been paid is in the average now
		}
		if !first.Recommended.NearEnough && h.Wish.Refund.IsPositive() {
			return false
		}
		if !again.Recommended.NothingToHandIn() {
			t.Errorf("seed %d: solving again recommends %s, ending on %v, after %s, ending on %v (as filed %v)", seed, again.Recommended.Name, again.Recommended.Balance, first.Recommended.Name, first.Recommended.Balance, again.AsFiled.Balance)
			for i, c := range again.Recommended.Certificates {
				t.Logf("%v keep %v: %+v after %+v", c.Name, c.Keep, c.Certificate, first.Recommended.Certificates[i].Certificate)
			}
		}
		return true
	})
}

// taken is the household on the day before new certificates count, with what was
// to be paid directly among its payments.
func taken(h household.Household, r Result, y *tables.Year) household.Household {
	h = advanced(h, r.Recommended, y)
	h.Payments.EstimatedTax = h.Payments.EstimatedTax.Add(r.Estimated.Amount)
	return h
}

// advanced is the household on the day before new certificates count: everything
// up to then is paid, and they are on file.
func advanced(h household.Household, p Plan, y *tables.Year) household.Household {
	h.AsOf = h.Wish.FirstPayday.AddDays(-1)
	jobs := append([]household.Job{}, h.Jobs...)
	for i, j := range h.Jobs {
		stub := household.YearToDate{}
		if j.YearToDate != nil {
			stub = *j.YearToDate
		}
		var later []household.OneTimePay
		for _, o := range j.OneTimePay {
			if !o.Payday.Before(h.Wish.FirstPayday) {
				later = append(later, o)
			}
		}
		for _, e := range payroll.NewJobYear(h, i, y).Ledger(payroll.OnFile{Now: j.Certificate}) {
			if e.Date.Before(h.Wish.FirstPayday) {
				stub = household.YearToDate{Payday: e.Date, TaxablePay: money.Sum(stub.TaxablePay, e.Pay, e.OneTime), FederalTax: stub.FederalTax.Add(e.FederalTax)}
			}
		}
		if !stub.Payday.IsZero() {
			jobs[i].YearToDate = &stub
		}
		jobs[i].OneTimePay = later
	}
	for _, c := range p.Certificates {
		certificate := c.Certificate
		jobs[c.Job].Certificate = &certificate
	}
	h.Jobs = jobs
	return h
}
