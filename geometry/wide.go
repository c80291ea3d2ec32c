package geometry

import (
	"math/big"
	"math/bits"
)

// wide is a signed 128-bit integer, two's complement. Products of two
// coordinate differences (under 2^38 each) need 77 bits; sums of a million
// of them, weighted, still fit.
type wide struct {
	hi int64
	lo uint64
}

func wideFrom(n int64) wide { return wide{n >> 63, uint64(n)} }

// mulWide returns the exact product.
func mulWide(a, b int64) wide {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	if a < 0 {
		hi -= uint64(b)
	}
	if b < 0 {
		hi -= uint64(a)
	}
	return wide{int64(hi), lo}
}

func (a wide) add(b wide) wide {
	lo, carry := bits.Add64(a.lo, b.lo, 0)
	hi, _ := bits.Add64(uint64(a.hi), uint64(b.hi), carry)
	return wide{int64(hi), lo}
}

func (a wide) sub(b wide) wide {
	lo, borrow := bits.Sub64(a.lo, b.lo, 0)
	hi, _ := bits.Sub64(uint64(a.hi), uint64(b.hi), borrow)
	return wide{int64(hi), lo}
}

func (a wide) neg() wide { return wide{}.sub(a) }

// times multiplies by a small factor; the caller knows that it fits.
func (a wide) times(k int64) wide {
	p := mulWide(int64(a.lo>>1), k) // the low word may not fit a signed one
	p = p.add(p).add(mulWide(int64(a.lo&1), k))
	return p.add(wide{hi: a.hi * k})
}

func (a wide) sign() int {
	switch {
	case a.hi < 0:
		return -1
	case a.hi > 0 || a.lo > 0:
		return 1
	}
	return 0
}

func (a wide) cmp(b wide) int {
	switch {
	case a.hi != b.hi:
		if a.hi < b.hi {
			return -1
		}
		return 1
	case a.lo < b.lo:
		return -1
	case a.lo > b.lo:
		return 1
	}
	return 0
}

// float returns the nearest float64, but for the last bit.
func (a wide) float() float64 {
	if a.hi < 0 {
		return -a.neg().float()
	}
	return float64(a.hi)*(1<<64) + float64(a.lo)
}

func (a wide) big() *big.Int {
	n := big.NewInt(a.hi)
	n.Lsh(n, 64)
	return n.Add(n, new(big.Int).SetUint64(a.lo))
}

// roundQuo returns n/d rounded to the nearest integer, half upwards. The
// caller knows that the result fits.
func roundQuo(n, d *big.Int) int64 {
	twice := new(big.Int).Lsh(n, 1)
	if d.Sign() < 0 {
		twice.Neg(twice)
		d = new(big.Int).Neg(d)
	}
	twice.Add(twice, d)
	return new(big.Int).Div(twice, new(big.Int).Lsh(d, 1)).Int64()
}
