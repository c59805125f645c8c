// Package taxtables carries the yearly figures of the law and the maps of the
// official form's fields inside the program, so that it needs no other file.
// Its readers are internal/tables (YEAR.yaml) and internal/officialform
// (forms/).
package taxtables

import "embed"

// Files holds YEAR.yaml, the figures of a year, and forms/FORM_YEAR.yaml, the
// fields of each edition of the form.
//
//go:embed *.yaml forms/*.yaml
var Files embed.FS
