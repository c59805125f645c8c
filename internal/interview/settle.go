package interview

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// lists are the lists in the file whose elements the interview asks about,
// innermost first.
var lists = []string{"one_time_pay", "credits.adoption", "credits.education", "dependents", "jobs"}

// settle brings the file into agreement with the answers: what they lead to is
// written, what no longer applies is kept aside, and what applies again comes
// back. Since one can lead to the other it goes on until nothing changes.
func (s *Session) settle() {
	const enough = 30 // each round settles at least one thing; no file needs so many
	for range enough {
		before := s.walk
		s.walk = newWalk(s.doc, s.env, s.y)
		if !s.tidy(before) {
			return
		}
	}
}

// tidy is one round of settle, after the walk before, if any.
func (s *Session) tidy(before *walk) (changed bool) {
	asked, follows := make(map[string]bool), make(map[string]bool)
	for _, at := range s.walk.steps {
		asked[at.key] = true
	}
	for _, f := range s.walk.derived {
		follows[f.key] = true
	}
	followed := make(map[string]string) // by id
	if before != nil {
		for _, f := range before.derived {
			followed[f.id] = f.text
		}
	}
	var moves [][2]string // keys, with the places where their answers are kept
	for _, key := range s.doc.Keys() {
		id := s.id(key)
		text, _ := s.doc.Get(key)
		was, derived := followed[id]
		switch {
		case follows[key]:
		case derived && was == text:
			moves = append(moves, [2]string{key, ""}) // it followed from an answer that is no more
		case !asked[key] && s.unused(key):
			moves = append(moves, [2]string{key, s.walk.keptAt(id)})
		}
	}
	for _, m := range slices.Backward(moves) { // from the last, so that the places in a list stay true
		s.move(m[0], m[1])
	}
	if s.prune() || len(moves) > 0 {
		return true // elements may have moved; go through the interview again
	}
	for _, f := range s.walk.derived {
		text, ok := s.doc.Get(f.key)
		if ok && text == f.text {
			continue
		}
		if ok && followed[f.id] != text && script().byKey[indexFree(f.key)] != nil {
			s.move(f.key, s.walk.keptAt(f.id)) // the person's own answer
		}
		_ = s.doc.Set(f.key, f.text)
		changed = true
	}
	changed = s.restore() || changed
	return s.dropConfirm() || changed
}

// id is the lasting name of a key: with the label of its element for the place.
func (s *Session) id(key string) string {
	prefix, label := s.element(key)
	if prefix == "" {
		return key
	}
	return label + strings.TrimPrefix(key, prefix)
}

// element is the element of a list in which a key is, and its label; the
// label of one that no longer counts is that which it would have.
func (s *Session) element(key string) (prefix, label string) {
	for _, list := range lists[1:] {
		rest, found := strings.CutPrefix(key, list+"[")
		if !found {
			continue
		}
		index, _, _ := strings.Cut(rest, "]")
		prefix = list + "[" + index + "]"
		if label, live := s.walk.groups[prefix]; live {
			return prefix, label
		}
		n, _ := strconv.Atoi(index)
		switch list {
		case "dependents":
			return prefix, "person_" + strconv.Itoa(n+1)
		case "credits.education":
			return prefix, "student_" + strconv.Itoa(n+1)
		case "credits.adoption":
			return prefix, "adopted_" + strconv.Itoa(n+1)
		}
		kind, before := s.walk.jobKind(n), 0
		for i := range n {
			if s.walk.jobKind(i) == kind {
				before++
			}
		}
		return prefix, kind + "_" + strconv.Itoa(before+1)
	}
	return "", ""
}

// lastingFacts are facts about people and jobs that stay true whether or not
// the interview has to ask for them. Everything else that it can ask for counts
// only while it asks.
var lastingFacts = map[string]bool{
	"lived_apart": true, "jobs[].name": true, "jobs[].state": true, "jobs[].moved_paydays": true,
	"self.birth_date": true, "self.can_be_claimed": true, "self.ssn_valid_for_work": true, "self.full_time_student": true,
	"spouse.birth_date": true, "spouse.ssn_valid_for_work": true,
	"last_year.total_tax": true, "last_year.adjusted_gross_income": true,
	"wish.refund": true, "wish.tell_employer": true, "wish.spread": true,
}

// unused reports a key whose answer does not apply: an answer that is not asked
// for, or anything in an element that no longer counts. Keys that no question
// covers stay as they were written.
func (s *Session) unused(key string) bool {
	if _, gate := gateName(key); gate {
		return !s.walk.pending[key]
	}
	if ofLog(key) {
		return false
	}
	prefix, _ := s.element(key)
	if prefix != "" {
		if _, live := s.walk.groups[prefix]; !live {
			return true
		}
	}
	pattern := indexFree(key)
	if lastingFacts[pattern] || s.walk.pending[key] || script().byKey[pattern] == nil || s.walk.beyond[s.id(key)] {
		return false
	}
	return true
}

// move puts the answer at one key at another, or nowhere.
func (s *Session) move(from, to string) {
	if text, ok := s.doc.Get(from); ok && to != "" {
		_ = s.doc.Set(to, text)
	}
	s.doc.Delete(from)
}

// prune takes out the elements of lists that nothing is left of, last first.
func (s *Session) prune() (changed bool) {
	full := make(map[string]bool)
	for _, key := range s.doc.Keys() {
		for at, r := range key {
			if r == ']' {
				full[key[:at+1]] = true
			}
		}
	}
	empty := func(list string) {
		for i := s.doc.Len(list) - 1; i >= 0; i-- {
			element := list + "[" + strconv.Itoa(i) + "]"
			if _, live := s.walk.groups[element]; !full[element] && !live {
				s.doc.Delete(element)
				changed = true
			}
		}
	}
	for i := range s.doc.Len("jobs") {
		empty("jobs[" + strconv.Itoa(i) + "].one_time_pay")
	}
	for _, list := range append(slices.Collect(maps.Values(nextYearsLists)), lists[1:]...) {
		empty(list)
	}
	return changed
}

// restore brings back what was kept of an element that counts again and that no
// question covers. What a question covers waits for the person to confirm it.
func (s *Session) restore() (changed bool) {
	prefixes := make(map[string]string, len(s.walk.groups))
	for prefix, label := range s.walk.groups {
		prefixes[label] = prefix
	}
	for _, key := range s.doc.Keys() {
		id, kept := keptID(key)
		if !kept {
			continue
		}
		id = strings.TrimPrefix(id, strconv.Itoa(s.y.now.Year)+" ")
		label, field, _ := strings.Cut(id, ".")
		prefix, live := prefixes[label]
		at := prefix + "." + field
		if !live || s.doc.Has(at) {
			continue
		}
		if _, asked := s.walk.place[id]; asked || script().byKey[indexFree(at)] != nil && !lastingFacts[indexFree(at)] {
			continue
		}
		text, _ := s.doc.Get(key)
		if s.doc.Set(at, text) == nil {
			s.doc.Delete(key)
			changed = true
		}
	}
	return changed
}

// dropConfirm forgets the confirmations that no question is left for, and what
// was not known of questions that are neither asked nor waiting for an open answer.
func (s *Session) dropConfirm() bool {
	for id := range idList(s.doc, notKnownKey) {
		if i, asked := s.walk.place[id]; !s.walk.pending[id] && (!asked || !s.walk.steps[i].unknown) {
			s.setNotKnown(id, false)
		}
	}
	ids := idList(s.doc, toConfirmKey)
	before := len(ids)
	for id := range ids {
		if i, asked := s.walk.place[id]; !asked || !s.walk.steps[i].set {
			delete(ids, id)
		}
	}
	if len(ids) == before {
		return false
	}
	setIDList(s.doc, toConfirmKey, ids)
	return true
}
