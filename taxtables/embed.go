// Package taxtables carries the yearly figures of the law, the public holidays
// and the maps of the official form's fields inside the program, so that it
// needs no other file.
// Its readers are internal/tables (YEAR.yaml), internal/officialform (forms/)
// and internal/bankdays (calendar/).
package taxtables

import "embed"

// Files holds YEAR.yaml, the figures of a year; forms/FORM_YEAR.yaml, the fields
// of each edition of the form; and calendar/holidays.yaml, the public holidays.
//
//go:embed *.yaml forms/*.yaml calendar/*.yaml
var Files embed.FS
