package sample

import (
	"flag"
	"runtime/debug"
)

// CollectLess has a package's tests done sooner, in more memory: garbage is
// collected as seldom as the program itself does for a command. Benchmarks go on
// as they are, so that their figures can be compared with earlier ones. It is
// called by TestMain, and reads the flags.
func CollectLess() {
	flag.Parse()
	if bench := flag.Lookup("test.bench"); bench == nil || bench.Value.String() == "" {
		debug.SetGCPercent(collectPercent)
	}
}

// collectPercent is that of cmd/plumbline.
const collectPercent = 400

// Default sets a flag of the tests, once the flags are read, unless the command line
// has set it.
func Default(name, value string) {
	given := false
	flag.Visit(func(f *flag.Flag) { given = given || f.Name == name })
	if !given {
		_ = flag.Set(name, value)
	}
}
