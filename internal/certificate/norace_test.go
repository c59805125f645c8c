//go:build !race

package certificate

// households is how many random ones the property tests try.
const households = 2_500
