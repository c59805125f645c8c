package main

import (
	"fmt"
	"os"

	"example.com/plumbline/internal/store"
)

// read is the text of an answers file, and the name to show for it; "-" is
// standard input.
func (p *program) read(name string) (data []byte, shown string, err error) {
	if name == "-" {
		data, err = store.ReadAll(p.stdin)
		if err != nil {
			return nil, "", systemFailed(fmt.Errorf("standard input: %w", err))
		}
		return data, "standard input", nil
	}
	data, err = os.ReadFile(name)
	if err != nil {
		return nil, "", systemFailed(err)
	}
	return data, name, nil
}
