package certificate

import (
	"fmt"
	"testing"
)

func TestDbg(t *testing.T) {
	h := onPaydays(newRandom(t, 1094).household())
	r, _ := Solve(h, year(t, h.TaxYear), nil)
	fmt.Printf("%+v\n", h.Jobs)
	for _, j := range h.Jobs {
		fmt.Printf("%+v %+v\n", j.YearToDate, j.Certificate)
	}
	fmt.Println(h.AsOf, h.Status)
	show(t, r)
}
func TestDbg2(t *testing.T) {
	r := newRandom(t, 84)
	h := onPaydays(r.household())
	h.Wish.FirstPayday = r.date(h.AsOf.AddDays(1), endOf(h.TaxYear))
	y := year(t, h.TaxYear)
	a, _ := Solve(h, y, nil)
	show(t, a)
	g := advanced(h, a.Recommended, y)
	b, _ := Solve(g, y, nil)
	show(t, b)
	fmt.Println(h.AsOf, h.Wish.FirstPayday)
	for i := range h.Jobs {
		fmt.Printf("%+v %+v\n %+v\n", h.Jobs[i].YearToDate, h.Jobs[i], g.Jobs[i].YearToDate)
	}
}
