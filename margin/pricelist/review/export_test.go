package review

import "example.com/quoin/margin/pricelist"

// Mixtures gives tests the floors of documents in which one change is made, or all but
// one: as they are decided, and decided whole.
func Mixtures(last, now pricelist.Document) (some, whole []map[string]string, err error) {
	old, err := treeOf(last)
	if err != nil {
		return nil, nil, err
	}
	new, err := treeOf(now)
	if err != nil {
		return nil, nil, err
	}
	of, err := meanings()
	if err != nil {
		return nil, nil, err
	}
	for _, list := range []*[]map[string]string{&some, &whole} {
		n, changes := compared(of, floored(old), floored(new))
		m := &mixture{node: n, changes: changes, reaches: make([]reach, len(changes)), known: make(map[string]tried)}
		if list == &some {
			m.reaches = reaches(changes, floored(old), floored(new))
		}
		for i := range changes {
			m.groups = append(m.groups, []int{i})
		}
		for g := range m.groups {
			*list = append(*list, m.written(only(g)), m.written(allBut(g)))
		}
	}
	return some, whole, nil
}

func (m *mixture) written(made func(int) bool) map[string]string {
	f, err := m.floors(made)
	if err != nil {
		return map[string]string{"": "does not stand"}
	}
	out := make(map[string]string, len(f))
	for id, a := range f {
		out[id] = a.String()
	}
	return out
}

// Reached gives tests how many changes cannot move all products.
func Reached(last, now pricelist.Document) (n int) {
	old, _ := treeOf(last)
	new, _ := treeOf(now)
	of, _ := meanings()
	_, changes := compared(of, floored(old), floored(new))
	for _, r := range reaches(changes, floored(old), floored(new)) {
		if r != nil {
			n++
		}
	}
	return n
}
