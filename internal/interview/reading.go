package interview

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// read turns what a person typed or chose into the text that stands in the
// file, or says how to answer.
func (s *step) read(text string, year int) (string, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return "", errors.New("This question needs an answer. Go back if you are not sure of an earlier one.")
	}
	switch s.wording.Kind {
	case Choice:
		return s.readChoice(text)
	case Several:
		return s.readSeveral(text)
	case YesNo:
		return readYesNo(text)
	case Amount:
		return s.readAmount(text)
	case Whole:
		return s.readWhole(text)
	case Day:
		return s.readDay(text, year)
	}
	return readWords(text)
}

// accepts reports whether a text in the file is an answer to the question.
func (s *step) accepts(text string) bool {
	switch s.wording.Kind {
	case Choice:
		return s.offers(text)
	case Several:
		for _, v := range answer(text).picks() {
			if !s.worded(v) {
				return false
			}
		}
		return text != ""
	case YesNo:
		return text == "true" || text == "false"
	case Amount:
		_, err := money.Parse(text)
		return err == nil
	case Whole:
		_, err := s.readWhole(text)
		return err == nil
	case Day:
		return !answer(text).day().IsZero()
	}
	return text != ""
}

func (s *step) worded(value string) bool {
	for _, o := range s.wording.Options {
		if o.Value == value {
			return true
		}
	}
	return false
}

// match finds the offered option that a text names by its value or its label.
func (s *step) match(text string) (string, bool) {
	for _, o := range s.wording.Options {
		if s.offers(o.Value) && (strings.EqualFold(text, o.Value) || strings.EqualFold(text, o.Label)) {
			return o.Value, true
		}
	}
	return "", false
}

func (s *step) readChoice(text string) (string, error) {
	if v, ok := s.match(text); ok {
		return v, nil
	}
	return "", fmt.Errorf("%q is not one of the answers. Choose one of those listed.", clip(text))
}

func (s *step) readSeveral(text string) (string, error) {
	if strings.EqualFold(text, None) {
		return None, nil
	}
	var values []string
	for part := range strings.SplitSeq(text, ",") {
		v, ok := s.match(strings.TrimSpace(part))
		if !ok {
			return "", fmt.Errorf("%q is not in the list. Choose from the list, or none.", clip(strings.TrimSpace(part)))
		}
		if !answer(strings.Join(values, ",")).has(v) {
			values = append(values, v)
		}
	}
	return strings.Join(values, ", "), nil
}

// withHidden adds to an answer of kind Several the values that were chosen
// earlier and are not offered at present, so that they come back when they are.
func (s *step) withHidden(text, earlier string) string {
	if s.wording.Kind != Several {
		return text
	}
	values := answer(text).picks()
	for _, v := range answer(earlier).picks() {
		if s.worded(v) && !s.offers(v) {
			values = append(values, v)
		}
	}
	if len(values) == 0 {
		return None
	}
	return strings.Join(values, ", ")
}

func readYesNo(text string) (string, error) {
	switch strings.ToLower(text) {
	case "y", "yes", "true":
		return "true", nil
	case "n", "no", "false":
		return "false", nil
	}
	return "", fmt.Errorf("%q is neither yes nor no. Answer yes or no.", clip(text))
}

func (s *step) readAmount(text string) (string, error) {
	a, err := money.Parse(text)
	if err != nil {
		return "", fmt.Errorf("%q is not an amount. Type it like 1200.50; type 0 for none.", clip(text))
	}
	if a.IsNegative() && !s.wording.Negative {
		return "", errors.New("This amount cannot be below zero. Type it without the minus sign.")
	}
	return a.Text(), nil
}

func (s *step) readWhole(text string) (string, error) {
	n, err := strconv.Atoi(text)
	if err != nil {
		return "", fmt.Errorf("%q is not a whole number. Type it in digits, like 2.", clip(text))
	}
	if n < s.least || n > s.most {
		return "", fmt.Errorf("%d is not between %d and %d. Type a number in that range.", n, s.least, s.most)
	}
	return strconv.Itoa(n), nil
}

// The ways in which people write a date; the last ones lack the year, which is
// then the year of the certificate.
var (
	layouts  = []string{time.DateOnly, "1/2/2006", "1-2-2006", "January 2, 2006", "January 2 2006", "Jan 2, 2006", "Jan 2 2006", "2 January 2006"}
	yearless = []string{"1/2", "January 2", "Jan 2"}
)

func (s *step) readDay(text string, year int) (string, error) {
	for _, layout := range layouts {
		if t, err := time.Parse(layout, text); err == nil {
			return household.DateOf(t).String(), nil
		}
	}
	if s.wording.Birth {
		// Where the law looks at the age at the end of the year, the day does not
		// matter; one in the middle stands for the year.
		if n, err := strconv.Atoi(text); err == nil && n > 1000 && n < 10000 {
			return household.On(n, time.July, 1).String(), nil
		}
		return "", fmt.Errorf("%q is not a date of birth. Type it like 1990-06-15, or the year alone.", clip(text))
	}
	for _, layout := range yearless {
		if t, err := time.Parse(layout, text); err == nil {
			return household.On(year, t.Month(), t.Day()).String(), nil
		}
	}
	return "", fmt.Errorf("%q is not a date. Type it like %d-06-15 or 6/15/%d.", clip(text), year, year)
}

// notNames are answers of yes or no given where a name is asked for.
var notNames = []string{"y", "yes", "n", "no", "true", "false", None}

func readWords(text string) (string, error) {
	const most = 60
	text = strings.Join(strings.Fields(text), " ")
	if slices.Contains(notNames, strings.ToLower(text)) {
		return "", fmt.Errorf("%q is an answer to another kind of question. Type a name here, like the employer's.", text)
	}
	if len(text) > most {
		return "", fmt.Errorf("That is longer than %d letters. A short name will do.", most)
	}
	return text, nil
}

// shown is an answer as people read it; the options are those of the question
// as it is put.
func (s *step) shown(text string, options []Option) string {
	switch s.wording.Kind {
	case Choice:
		return labelOf(text, options)
	case Several:
		var labels []string
		for _, v := range answer(text).picks() {
			labels = append(labels, labelOf(v, options))
		}
		if len(labels) == 0 {
			return script().Phrases["none"]
		}
		return strings.Join(labels, "; ")
	case YesNo:
		if text == "true" {
			return script().Phrases["yes"]
		}
		return script().Phrases["no"]
	case Amount:
		return dollars(answer(text).amount())
	case Day:
		return answer(text).day().Long()
	}
	return text
}

func labelOf(value string, options []Option) string {
	for _, o := range options {
		if o.Value == value {
			return o.Label
		}
	}
	return value
}

// clip keeps an offending text short enough to stand in a message.
func clip(text string) string {
	const most = 40
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}
