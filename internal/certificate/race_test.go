//go:build race

package certificate

// households is how many random ones the property tests try: fewer under the
// race detector, which is slow.
const households = 500
