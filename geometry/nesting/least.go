package nesting

// Least returns what no layout of a job can do with less of; it is empty
// where there is nothing to lay.
func (j Job) Least() Bound {
	pieces := 0
	for _, s := range j.Shapes {
		pieces += s.Count
	}
	if len(j.Stock) == 0 || pieces == 0 {
		return Bound{}
	}
	return j.bound()
}
