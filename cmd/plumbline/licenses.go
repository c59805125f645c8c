package main

import _ "embed"

// licenses are the licenses and notices of every module that is linked, which
// must go with every copy of the program. TestLicenses writes the file.
//
//go:embed licenses.txt
var licenses string
