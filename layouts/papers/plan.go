package papers

// A Plan gives papers to the places of a batch.
type Plan struct {
	Name    string // as the design file has it
	Summary string // one line
	// Paper picks, from the papers in the design's order, the one for a role
	// on a card; both count from 0.
	Paper func(papers []string, role, card int) string
}

// Plans lists the plans; the first is what a design has that says nothing.
func Plans() []Plan {
	return []Plan{
		{"same", "every card has the same papers in the same places",
			func(papers []string, role, _ int) string { return papers[role%len(papers)] }},
		{"in turn", "on each card every paper moves one place on",
			func(papers []string, role, card int) string { return papers[(role+card)%len(papers)] }},
	}
}

// PlanNamed returns the plan of that name, which exists.
func PlanNamed(name string) Plan {
	for _, p := range Plans() {
		if p.Name == name {
			return p
		}
	}
	panic("papers: no plan " + name)
}
