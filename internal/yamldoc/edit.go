package yamldoc

import (
	"fmt"
	"slices"
)

// Set writes a scalar at key, replacing the one there, and making the mappings
// and lists that lead to it; an index equal to a list's length appends. Text
// that YAML might read as something else is put in quotes. It is an error when
// the key is malformed, runs through a scalar, would replace a mapping or list,
// or skips an index, and when the text is too long or holds control characters;
// the document is then unchanged.
func (d *Document) Set(key, text string) error {
	if fault := textFault(text); fault != "" {
		return fmt.Errorf("%s: %s", key, fault)
	}
	steps, err := split(key)
	if err != nil {
		return err
	}
	if len(steps) == 0 || steps[0].name == "" {
		return fmt.Errorf("%q is not a key; write it like jobs[0].pay", key)
	}
	if len(steps) > maxDepth {
		return fmt.Errorf("%s: lists and mappings are nested deeper than 50", key)
	}
	for _, s := range steps {
		if s.name != "" {
			if fault := nameFault(s.name); fault != "" {
				return fmt.Errorf("%s: %s", key, fault)
			}
		}
	}
	if err := d.reachable(steps, key); err != nil {
		return err
	}
	n := d.root
	for _, s := range steps {
		if n.kind == scalar { // null, as reachable has made sure
			*n = node{kind: holder(s), line: n.line, column: n.column}
		}
		it, _ := n.find(s)
		if it == nil {
			it = &item{name: s.name, value: &node{null: true}}
			n.flow = n.flow && len(n.items) > 0 // {} and [] grow into lines
			n.items = append(n.items, it)
		}
		n = it.value
	}
	*n = node{style: styleFor(text), text: text, line: n.line, column: n.column}
	return nil
}

// holder is the kind of node that a step starts from.
func holder(s step) kind {
	if s.name == "" {
		return list
	}
	return mapping
}

// reachable checks that a scalar can be set at the end of the steps.
func (d *Document) reachable(steps []step, key string) error {
	n, path := d.root, ""
	for _, s := range steps {
		switch {
		case n == nil || n.null:
			if s.name == "" && s.index > 0 {
				return fmt.Errorf("%s: the list %s is empty; the next index is 0", key, path)
			}
			n = nil
		case n.kind == scalar:
			return fmt.Errorf("%s: %s holds one value; delete it first", key, path)
		case n.kind == mapping && s.name == "":
			return fmt.Errorf("%s: %s is a mapping of keys, not a list", key, path)
		case n.kind == list && s.name != "":
			return fmt.Errorf("%s: %s is a list, not a mapping of keys", key, path)
		case n.kind == list && s.index > len(n.items):
			return fmt.Errorf("%s: the next index of %s is %d", key, path, len(n.items))
		default:
			it, _ := n.find(s)
			n = nil
			if it != nil {
				n = it.value
			}
		}
		path = s.under(path)
	}
	if n != nil && n.kind != scalar {
		return fmt.Errorf("%s: a list or mapping stands here; delete it first", key)
	}
	return nil
}

// Delete removes what stands at key, with the comments that belong to it. A
// mapping or list that is left empty by it goes too, unless it is an element of
// a list, whose other elements would change their index. A key that is not
// there is no error.
func (d *Document) Delete(key string) {
	steps, err := split(key)
	if err != nil || len(steps) == 0 {
		return
	}
	holders := []*node{d.root}
	for _, s := range steps {
		it, _ := holders[len(holders)-1].find(s)
		if it == nil {
			return
		}
		holders = append(holders, it.value)
	}
	for i := len(steps) - 1; i >= 0; i-- {
		d.remove(holders[:i+1], steps[:i+1])
		if len(holders[i].items) > 0 || i == 0 || steps[i-1].name == "" {
			return
		}
	}
}

// remove takes the item that the last step leads to out of the last holder.
// Remarks above it that do not belong to it go to the item that follows; those
// below it that continue its comment go with it.
func (d *Document) remove(holders []*node, steps []step) {
	last := len(holders) - 1
	n := holders[last]
	it, i := n.find(steps[last])
	n.items = slices.Delete(n.items, i, i+1)
	kept := it.above
	for len(kept) > 0 && kept[len(kept)-1].text != "" && kept[len(kept)-1].column == 0 {
		kept = kept[:len(kept)-1]
	}
	// The item that follows stands in this holder or, when the one removed was
	// the last, in a holder around it.
	following, level := &d.below, 0
	for l := last; l >= 0; l-- {
		if l < last {
			_, i = holders[l].find(steps[l])
			i++
		}
		if i < len(holders[l].items) {
			following, level = &holders[l].items[i].above, l
			break
		}
	}
	shift := 2 * (last - level)
	moved := make([]remark, 0, len(kept)+len(*following))
	for _, r := range kept {
		r.column += shift // the place stays, the item it is counted from does not
		moved = append(moved, r)
	}
	rest := *following
	for len(rest) > 0 && rest[0].text != "" && rest[0].column > shift {
		rest = rest[1:]
	}
	*following = append(moved, rest...)
}
