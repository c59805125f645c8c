package tables

import (
	"fmt"
	"io/fs"
	"slices"

	"example.com/plumbline/internal/yamldoc"
)

// Check reads every year of a folder and returns all mistakes, file by file:
// those for which Load refuses a table, and in one that it takes, keys in the
// lists of a citation that name no figure. The table of the states is looked at
// too, where there is one.
func Check(fsys fs.FS) yamldoc.Problems {
	files, err := fs.Glob(fsys, "*.yaml")
	if err == nil && len(files) == 0 {
		return yamldoc.Problems{{File: ".", What: yamldoc.Said("there are no tables here; a table is named for its year, like 2031.yaml")}}
	}
	var all yamldoc.Problems
	for _, file := range files {
		if file == statesFile {
			all = append(all, checkStates(fsys)...)
			continue
		}
		all = append(all, checkFile(fsys, file)...)
	}
	return all
}

func checkFile(fsys fs.FS, file string) yamldoc.Problems {
	data, err := fs.ReadFile(fsys, file)
	if err != nil {
		return yamldoc.Problems{{File: file, What: yamldoc.Said(err.Error())}}
	}
	y, problems := read(file, data)
	if len(problems) > 0 {
		return problems
	}
	return sorted(listed(y.doc))
}

// listed checks the lists of every citation against the figures of its group.
func listed(doc *yamldoc.Document) yamldoc.Problems {
	var problems yamldoc.Problems
	groups := map[string][]Figure{}
	for _, f := range figuresOf(doc) {
		groups[f.Group] = append(groups[f.Group], f)
	}
	for group, figures := range groups {
		check := func(list string, keys []string) {
			for i, key := range keys {
				named := func(f Figure) bool { return names([]string{key}, f.Key[len(group)+1:]) }
				if !slices.ContainsFunc(figures, named) {
					at := fmt.Sprintf("%s.%s[%d]", group, list, i)
					problems = append(problems, doc.Problem(at, yamldoc.Said(fmt.Sprintf("%.60q names no figure of this group", key))))
				}
			}
		}
		cited := figures[0].Citation
		check("memory", cited.Memory)
		check("derived", cited.Derived)
		check("indexed", cited.Indexed)
	}
	return problems
}
