package terminal

import (
	"errors"
	"strings"
)

// errNoFile is what an empty file name gets.
var errNoFile = errors.New("Type the name of a file.")

// ascii is a text of the program's own in signs that every terminal and screen
// reader has.
var ascii = strings.NewReplacer("…", "...", "’", "'", "‘", "'", "“", `"`, "”", `"`, "–", "-", "—", "-", "×", "x", "−", "-", "§", "section ").Replace
