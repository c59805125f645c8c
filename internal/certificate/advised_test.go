package certificate

import (
	"sync/atomic"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// The choice, by households in words. Amounts are what the year ends on beyond
// the aim.
func TestChoiceInWords(t *testing.T) {
	o := func(plan string, forms, entries int, over int64, more ...string) option {
		x := option{plan: plan, forms: forms, entries: entries, over: money.Dollars(over), near: over >= -100 && over <= 250, livable: true, open: true}
		for _, m := range more {
			switch m {
			case "lasts":
				x.lasts = true
			case "takes too much of a paycheck":
				x.livable = false
			case "payroll may be late":
				x.late = true
			case "for December alone":
				x.brief = true
			case "a few dollars":
				x.petty = true
			case "not wished for":
				x.open = false
			}
		}
		return x
	}
	for _, tt := range []struct {
		household string
		options   []option
		plan      string
		ground    string
	}{
		{"a couple on single who will owe 3 dollars", []option{o(PlanKeep, 0, 0, -3, "lasts"), o(PlanPlain, 2, 0, 40, "lasts"), o(PlanTuned, 2, 3, 0)}, PlanKeep, becauseNear},
		{"right this year, wrong in January: the form waits until January", []option{o(PlanKeep, 0, 0, 90), o(PlanLasting, 1, 1, 0, "lasts")}, PlanKeep, becauseNear},
		{"a first job", []option{o(PlanPlain, 1, 0, 2, "lasts"), o(PlanForm, 1, 0, 2, "lasts"), o(PlanTuned, 1, 1, 0, "lasts")}, PlanPlain, becauseNear},
		{"two like jobs from January on: the box is enough", []option{o(PlanKeep, 0, 0, -2800), o(PlanBox, 2, 0, 20, "lasts"), o(PlanExtra, 2, 1, 1, "lasts")}, PlanBox, becauseNear},
		{"one form does what two do", []option{o(PlanKeep, 0, 0, -2800), o(PlanBox, 2, 0, 20, "lasts"), o(PlanExtra, 1, 1, -60)}, PlanExtra, becauseNear},
		{"one form for both years, 80 owed, before one that is exact and goes back in January", []option{o(PlanKeep, 0, 0, -900), o(PlanLasting, 1, 1, -80, "lasts"), o(PlanExtra, 1, 1, 2)}, PlanLasting, becauseNear},
		{"4(c) alone before 4(a), 4(b) and 4(c)", []option{o(PlanKeep, 0, 0, -900), o(PlanTuned, 1, 3, 1), o(PlanExtra, 1, 1, 12)}, PlanExtra, becauseNear},
		{"the nearer of two single entries", []option{o(PlanKeep, 0, 0, 900), o(PlanSimple, 1, 1, 190), o(PlanExtra, 1, 1, -20)}, PlanExtra, becauseNear},
		{"a dollar a paycheck is no advice", []option{o(PlanKeep, 0, 0, -130), o(PlanTuned, 1, 1, 0, "a few dollars"), o(PlanSimple, 1, 1, 60)}, PlanSimple, becauseNear},
		{"December, payroll need not hurry: January's form, and what is missing is paid", []option{o(PlanKeep, 0, 0, -2500), o(PlanTuned, 1, 1, 0, "payroll may be late"), o(PlanExtra, 1, 1, -1400, "payroll may be late")}, PlanKeep, becauseLate},
		{"two paydays left: a quarter of two paychecks is not worth a form", []option{o(PlanKeep, 0, 0, -4500), o(PlanExtra, 1, 1, -3500), o(PlanTuned, 1, 1, 0, "takes too much of a paycheck")}, PlanKeep, becauseLate},
		{"a large gain in June: what paychecks can carry, the rest directly", []option{o(PlanKeep, 0, 0, -27000), o(PlanExtra, 1, 1, -13000), o(PlanTuned, 1, 1, 0, "takes too much of a paycheck")}, PlanExtra, becausePartly},
		{"740 short in late November, no penalty: one form for both years, the rest with the return", []option{o(PlanKeep, 0, 0, -740), o(PlanLasting, 1, 1, -644, "lasts"), o(PlanExtra, 2, 2, 0, "for December alone")}, PlanLasting, becauseNext},
		{"the same, right in January already: nothing changes", []option{o(PlanKeep, 0, 0, -740, "lasts"), o(PlanLasting, 1, 1, -700, "lasts"), o(PlanExtra, 1, 1, 0, "for December alone")}, PlanKeep, becauseLate},
		{"the same, where next year's form would leave more to pay: it waits", []option{o(PlanKeep, 0, 0, -740), o(PlanLasting, 1, 1, -790, "lasts"), o(PlanExtra, 1, 1, 0, "for December alone")}, PlanKeep, becauseLate},
		{"divorced in December: the status must change, whenever payroll gets to it", []option{o(PlanPlain, 1, 0, -800, "payroll may be late"), o(PlanTuned, 1, 1, 0, "payroll may be late")}, PlanPlain, becauseLate},
		{"who asks that employers learn nothing", []option{o(PlanKeep, 0, 0, -900, "not wished for"), o(PlanPlain, 1, 0, -700), o(PlanPrivate, 1, 1, 3), o(PlanSimple, 1, 1, 0, "not wished for")}, PlanPrivate, becauseNear},
	} {
		t.Run(tt.household, func(t *testing.T) {
			i, ground := choose(tt.options)
			if got := tt.options[i]; got.plan != tt.plan || ground != tt.ground {
				t.Errorf("advised %s (%s), want %s (%s)", got.plan, ground, tt.plan, tt.ground)
			}
		})
	}
}

// What must hold of the advice to any household.
func TestAdviceHoldsForAnyHousehold(t *testing.T) {
	var serve atomic.Int64
	eachHousehold(t, households, func(seed uint64) bool {
		h := onPaydays(newRandom(t, seed).Household())
		y := year(t, h.TaxYear)
		r, err := Solve(h, y, nil)
		if err != nil {
			t.Error(err)
			return false
		}
		if servesLongEnough(t, seed, r) {
			serve.Add(1)
		}
		h = r.Household // by the average pay, where it is irregular
		pr := newProjection(h, y, nil)
		f := pr.fillForm(nil)
		p := r.Recommended

		all := p.Certificates
		if r.January != nil {
			all = append(append([]JobCertificate{}, all...), r.January.Certificates...)
		}
		for _, c := range all {
			if !c.Keep && petty(c.Certificate) {
				t.Errorf("seed %d: Step 4(c) of %v at %s", seed, c.Certificate.Extra, c.Name)
			}
			if most := c.TakeHomeNow.At(livableShare); !c.Keep && r.Verdict.NearEnough && c.TakeHomeNow.Sub(c.TakeHome).More(most.Add(money.Cents(1))) {
				t.Errorf("seed %d: %s takes home %v less of %v", seed, c.Name, c.TakeHomeNow.Sub(c.TakeHome), c.TakeHomeNow)
			}
		}

		// As filed near enough and safe, and free to stay: nothing is advised.
		_, mayStay := pr.standingCerts()
		if mayStay && len(pr.payers) > 0 && pr.band().holds(r.AsFiled.Balance.Sub(pr.aim(f))) && r.Harbor.Safe &&
			h.Wish.TellEmployer == household.TellAll && p.forms() > 0 {
			t.Errorf("seed %d: as filed ends on %v, and %d forms are advised", seed, r.AsFiled.Balance, p.forms())
		}

		// Step 3 never exceeds the real credits in January.
		if j := r.January; j != nil {
			claimed := money.Zero
			for _, c := range j.Certificates {
				if !c.Keep {
					claimed = claimed.Add(c.Certificate.Credits)
				}
			}
			next, _ := nextYear(h, r.Return)
			standIn := *y
			standIn.Year++
			if real := newProjection(next, &standIn, nil).fillForm(nil).L3; claimed.More(real) {
				t.Errorf("seed %d: January claims %v in Step 3, the credits are %v", seed, claimed, real)
			}
		}

		next := pr.openJanuary(nil)
		// No plan with fewer forms that was near enough was passed over.
		for _, q := range r.Alternatives {
			simple := q.Name == PlanPlain || q.Name == PlanExtra || q.Name == PlanSimple || q.Name == PlanKeep
			if simple && p.NearEnough && q.NearEnough && q.forms() < p.forms() && h.Wish == (household.Wish{Refund: h.Wish.Refund}) && !anyUnsound(pr, next, q) {
				t.Errorf("seed %d: %s with %d forms is advised, %s with %d is near enough", seed, p.Name, p.forms(), q.Name, q.forms())
			}
		}

		// The balance, replayed payday by payday, is near enough, or the rest is
		// paid directly, or nothing true could bring it down.
		toCome, doubtful := money.Zero, false
		for _, i := range h.CountedJobs() {
			var c JobCertificate
			for _, jc := range p.Certificates {
				if jc.Job == i {
					c = jc
				}
			}
			l := replay(h, i, &c.Certificate, c.FirstPayday, y)
			toCome, doubtful = toCome.Add(l.withheld), doubtful || l.doubtful
		}
		if doubtful {
			return false
		}
		if !toCome.Equal(p.WithholdingToCome) {
			t.Errorf("seed %d: %v is withheld to the end of the year, replayed %v", seed, p.WithholdingToCome, toCome)
		}
		balance := money.Sum(p.WithheldSoFar, toCome, p.OtherPayments, p.RefundableCredits, r.Verdict.PayDirectly.Amount).Sub(p.TotalTax)
		over := balance.Sub(pr.aim(f))
		if short := pr.band().times(lastingTimes).short.Neg(); over.Less(short) && !balance.IsPositive() && !balance.IsZero() {
			t.Errorf("seed %d: %s ends on %v, %v from the aim, with %v to pay", seed, p.Name, balance, over, r.Verdict.PayDirectly.Amount)
		}
		return true
	})
	if serve.Load() < households*3/4 {
		t.Errorf("how long forms serve was looked at for only %d households", serve.Load())
	}
}

// anyUnsound reports a plan that could not be advised for its paychecks, for a
// late certificate, or for one that serves too few paydays.
func anyUnsound(pr *projection, j *januaryYear, p Plan) bool {
	for _, c := range p.Certificates {
		for i, s := range pr.payers {
			if s.index == c.Job && !c.Keep && (pr.late(i) || pr.brief(i, j, p.Lasts) || petty(c.Certificate) || c.Withholding.More(pr.mostWithheld(i))) {
				return true
			}
		}
	}
	return false
}

// Asked to be exact, and with no limit on a paycheck, the year lands as the
// replay of the plans has it.
func TestExactWhereAsked(t *testing.T) {
	eachHousehold(t, households/4, func(seed uint64) bool {
		h := onPaydays(newRandom(t, seed).Household())
		none, all := money.Zero, money.Dollars(1_000_000)
		h.Wish = household.Wish{Refund: h.Wish.Refund, Within: &none, MostLess: &all}
		h, _ = byAverage(h)
		y := year(t, h.TaxYear)
		r, err := Solve(h, y, nil)
		if err != nil {
			t.Error(err)
			return false
		}
		pr := newProjection(h, y, nil)
		tuned := planOfAny(r, PlanTuned)
		late := false
		for i := range pr.payers {
			late = late || pr.late(i)
		}
		if late || tuned == nil || !isFeasible(h, *tuned, y) || !pr.mayRaiseCredits() {
			return false
		}
		if !r.Recommended.Lands && r.Recommended.Name != PlanExempt {
			t.Errorf("seed %d: %s ends on %v, the goal is %v", seed, r.Recommended.Name, r.Recommended.Balance, h.Wish.Refund)
		}
		return true
	})
}

func planOfAny(r Result, name string) *Plan {
	for _, p := range append([]Plan{r.Recommended}, r.Alternatives...) {
		if p.Name == name {
			return &p
		}
	}
	return nil
}
