package interview

import (
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/yamldoc"
)

// longest is more questions than any honest path has: fifteen people and a
// dozen jobs.
const longest = 600

// reply draws an answer that the question may well get.
func reply(t *rapid.T, q Question) string {
	if q.Again && rapid.Bool().Draw(t, q.Key+" again") {
		return q.Answer
	}
	switch q.Kind {
	case Choice, YesNo:
		return q.Options[rapid.IntRange(0, len(q.Options)-1).Draw(t, q.Key)].Value
	case Several:
		var values []string
		for _, o := range q.Options {
			if rapid.IntRange(0, 4).Draw(t, q.Key+"="+o.Value) == 0 {
				values = append(values, o.Value)
			}
		}
		if len(values) == 0 {
			return None
		}
		return strings.Join(values, ", ")
	case Named:
		return rapid.SampledFrom([]string{Unknown, "GA", "pennsylvania", "d.c."}).Draw(t, q.Key)
	case Amount:
		return strconv.Itoa(rapid.IntRange(0, 6000).Draw(t, q.Key))
	case Whole:
		if strings.HasSuffix(q.Key, "_day") {
			return q.Prefill()
		}
		if q.Key == "interview.spouse_died" {
			return strconv.Itoa(rapid.IntRange(2022, 2026).Draw(t, q.Key))
		}
		if strings.HasSuffix(q.Key, "months_with_you") {
			return strconv.Itoa(rapid.IntRange(0, 12).Draw(t, q.Key))
		}
		return strconv.Itoa(rapid.IntRange(0, 3).Draw(t, q.Key))
	case Day:
		if strings.HasSuffix(q.Key, "birth_date") {
			return strconv.Itoa(rapid.IntRange(1945, 2026).Draw(t, q.Key))
		}
		days := rapid.IntRange(0, 364).Draw(t, q.Key)
		return household.On(2026, 1, 1).AddDays(days).String()
	}
	return "Job " + strconv.Itoa(rapid.IntRange(1, 9).Draw(t, q.Key))
}

// fallback is an answer that the question takes where the one drawn was
// refused.
var fallbacks = []string{"1", "100", "9000", "0", "2026-06-20", "2026-12-18", "2026-12-31", "2026-01-01", "2026-01-09", "2026-06-05", "1990", "true"}

func answerSomehow(t *rapid.T, s *Session) {
	q, _ := s.Question()
	if s.Answer(reply(t, q)) == nil {
		return
	}
	for _, f := range append(fallbacks, q.Default, q.Answer) {
		if s.Answer(f) == nil {
			return
		}
	}
	t.Fatalf("%s takes no answer: %v\nfile:\n%s", q.Key, s.Answer(None), s.Document().Bytes())
}

func beginAny(t *rapid.T) *Session {
	s, err := Start(nil, env("2026-06-15"))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// finish answers what is left, and fails where that has no end.
func finish(t *rapid.T, s *Session) {
	for range longest {
		if _, more := s.Question(); !more {
			return
		}
		answerSomehow(t, s)
	}
	t.Fatalf("no end after %d questions\nfile:\n%s", longest, s.Document().Bytes())
}

// confirm answers what is left with the answers from before, else with what the
// questions start from.
func confirm(t *rapid.T, s *Session) {
	for range longest {
		q, more := s.Question()
		if !more {
			return
		}
		text := answerOf(s, s, q.Key) // a suggestion may go before it
		if text == "" {
			text = q.Prefill()
		}
		if text == "" || s.Answer(text) != nil {
			answerSomehow(t, s)
		}
	}
	t.Fatal("no end")
}

func TestEveryPathEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := beginAny(t)
		finish(t, s)
		s.Draft()
		if s.Blank() {
			return
		}
		if _, err := s.Household(); err != nil {
			t.Fatalf("the answers do not agree: %v\nfile:\n%s", err, s.Document().Bytes())
		}
		if _, err := s.Result(); err != nil {
			t.Fatal(err)
		}
		s.Due()
	})
}

// Leaving after any answer and coming back on the same day is as if one had
// never left.
func TestResumingEqualsNeverLeaving(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := beginAny(t)
		for range rapid.IntRange(0, 80).Draw(t, "answers") {
			if _, more := s.Question(); !more || rapid.IntRange(0, 9).Draw(t, "back") == 0 && s.Back() {
				continue
			}
			answerSomehow(t, s)
		}
		before := string(s.Document().Bytes())
		doc, err := yamldoc.Parse("answers", s.Document().Bytes())
		if err != nil {
			t.Fatalf("%v\nfile:\n%s", err, before)
		}
		again, err := Start(doc, env("2026-06-15"))
		if err != nil {
			t.Fatal(err)
		}
		was, more := s.Question()
		is, moreNow := again.Question()
		if more != moreNow || was.Key != is.Key || was.Text != is.Text || was.Answer != is.Answer || was.Notice != is.Notice {
			t.Fatalf("resumed at %q, left at %q\nfile:\n%s", is.Key, was.Key, before)
		}
		if after := string(again.Document().Bytes()); after != before {
			t.Fatalf("resuming changed the file from\n%s\nto\n%s", before, after)
		}
	})
}

// Going back visits the questions in reverse and changes nothing but the place;
// giving the same answers again leads, one question at a time, to the same place.
func TestBackUndoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := beginAny(t)
		for range rapid.IntRange(1, 60).Draw(t, "answers") {
			if _, more := s.Question(); more {
				answerSomehow(t, s)
			}
		}
		before := string(s.Document().Bytes())
		here, more := s.Question()
		review := s.Review()
		i := len(review)
		for j, a := range review {
			if more && a.Key == here.Key {
				i = j
			}
		}
		steps := rapid.IntRange(1, i).Draw(t, "steps back")
		for n := 1; n <= steps; n++ {
			if !s.Back() {
				t.Fatal("cannot go back")
			}
			q, _ := s.Question()
			if q.Key != review[i-n].Key {
				t.Fatalf("back at %s, want %s", q.Key, review[i-n].Key)
			}
			if q.Answer == "" {
				t.Fatalf("%s has lost its answer", q.Key)
			}
		}
		for range steps {
			q, _ := s.Question()
			if err := s.Answer(q.Answer); err != nil {
				t.Fatalf("%s = %s is refused now: %v", q.Key, q.Answer, err)
			}
		}
		if after := string(s.Document().Bytes()); after != before {
			t.Fatalf("going back changed the file from\n%s\nto\n%s", before, after)
		}
		if q, now := s.Question(); now != more || q.Key != here.Key {
			t.Fatalf("came out at %q, want %q", q.Key, here.Key)
		}
	})
}

// counting are the facts that count: what is in the file outside the
// interview's own section, by their lasting names, since a job that comes back
// is at the end of the list.
func counting(s *Session) map[string]string {
	counted := make(map[string]string)
	for _, key := range facts(s.Document()) {
		counted[s.id(key)], _ = s.Document().Get(key)
	}
	return counted
}

// An answer that is changed and changed back, with everything that comes up
// confirmed, leaves the facts as they were: what stopped applying was kept.
func TestKeptAnswersComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := beginAny(t)
		finish(t, s)
		before := counting(s)
		review := s.Review()
		i := rapid.IntRange(0, len(review)-1).Draw(t, "which")
		if !s.GoTo(review[i].Key) {
			t.Fatalf("cannot go to %s", review[i].Key)
		}
		q, _ := s.Question()
		other := reply(t, q)
		if s.Answer(other) != nil {
			return
		}
		if !s.GoTo(review[i].Key) {
			t.Fatalf("cannot go back to %s", review[i].Key)
		}
		if s.Answer(q.Answer) != nil {
			return
		}
		confirm(t, s)
		after := counting(s)
		for key, text := range before {
			if after[key] != text {
				t.Fatalf("%s was %q, is %q, after %s was %s, %s and %s again\nfile:\n%s", key, text, after[key], q.Key, q.Answer, other, q.Answer, s.Document().Bytes())
			}
		}
	})
}

// However the answers came about, only those that apply count: giving the same
// ones to a new interview leads to the same facts, those that stay true of
// people and jobs apart.
func TestUnusedAnswersDoNotCount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := beginAny(t)
		finish(t, s)
		for range rapid.IntRange(1, 6).Draw(t, "changes") {
			review := s.Review()
			s.GoTo(review[rapid.IntRange(0, len(review)-1).Draw(t, "which")].Key)
			answerSomehow(t, s)
			finish(t, s)
		}
		forgetUnasked(s)
		finish(t, s)
		fresh := beginAny(t)
		for range longest {
			q, more := fresh.Question()
			if !more {
				break
			}
			text := answerOf(s, fresh, q.Key)
			if text == "" {
				t.Fatalf("%s is asked of a new interview, not of this one\nfile:\n%s", q.Key, s.Document().Bytes())
			}
			if err := fresh.Answer(text); err != nil {
				t.Fatalf("%s = %s: %v", q.Key, text, err)
			}
		}
		was, want := counting(s), counting(fresh)
		for key, text := range was {
			if want[key] != text && !lasting(key) {
				t.Fatalf("%s = %q counts, but a new interview with the same answers has %q\nfile:\n%s\nnew:\n%s", key, text, want[key], s.Document().Bytes(), fresh.Document().Bytes())
			}
		}
		for key := range want {
			if _, ok := was[key]; !ok {
				t.Fatalf("%s is missing", key)
			}
		}
	})
}

// forgetUnasked takes out the facts that stay true though no longer asked for,
// which a new interview cannot know.
func forgetUnasked(s *Session) {
	for _, key := range s.doc.Keys() {
		if _, asked := s.walk.place[s.id(key)]; !asked && lastingFacts[indexFree(key)] {
			s.doc.Delete(key)
		}
	}
	s.changed()
}

// answerOf is the answer in one session to a question of another.
func answerOf(s, other *Session, key string) string {
	for i := range s.walk.steps {
		if at := &s.walk.steps[i]; at.id == other.id(key) {
			return string(s.walk.answered(at))
		}
	}
	return ""
}

// lasting reports the id of a fact that stays true when it is no longer asked
// for.
func lasting(id string) bool {
	label, field, _ := strings.Cut(id, ".")
	switch {
	case strings.HasPrefix(label, "person_"):
		id = "dependents[]." + field
	case strings.Contains(label, "job_"), strings.Contains(label, "pension_"):
		id = "jobs[]." + field
	}
	return lastingFacts[id]
}
