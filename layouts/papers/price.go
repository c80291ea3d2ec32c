package papers

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// A Price is an exact decimal amount of money in one currency. The zero
// Price is nothing, in any currency.
type Price struct {
	millionths int64
	decimals   int    // that it is written with
	currency   string // "EUR" or a sign like "€"; "" where not said
}

// Bounds of what is read as a price.
const (
	mostPriceText     = 40
	mostPriceDecimals = 6
	mostPrice         = 1_000_000
	million           = 1_000_000
)

const pricesLike = `write it like 0.85 or "0.85 EUR"`

// ParsePrice reads a price: digits with a decimal point or comma, and before
// or behind them, if it is said, the currency as three capital letters
// (ISO 4217: "EUR") or as its sign ("€"). Nothing is looked up: a currency is
// what the maker calls it.
func ParsePrice(text string) (Price, error) {
	text = strings.TrimSpace(text)
	if runes := []rune(text); len(runes) > mostPriceText {
		return Price{}, fmt.Errorf("%q is too long for a price; %s", string(runes[:mostPriceText])+"…", pricesLike)
	}
	first := strings.IndexFunc(text, unicode.IsDigit)
	last := strings.LastIndexFunc(text, unicode.IsDigit)
	if first < 0 {
		return Price{}, fmt.Errorf("%q is not a price; %s", text, pricesLike)
	}
	before, digits, behind := strings.TrimSpace(text[:first]), text[first:last+1], strings.TrimSpace(text[last+1:])
	p, err := parseAmount(text, digits)
	switch p.currency = before + behind; {
	case err != nil:
		return Price{}, err
	case before != "" && behind != "", !isCurrency(p.currency):
		return Price{}, fmt.Errorf("%q is not a price; %s", text, pricesLike)
	case p.millionths > mostPrice*million:
		return Price{}, fmt.Errorf("%q is more than %d", text, mostPrice)
	}
	return p, nil
}

// parseAmount reads digits with at most one point or comma among them.
func parseAmount(text, digits string) (Price, error) {
	if i := strings.IndexByte(digits, ','); i > 0 && len(digits)-i-1 == 3 {
		return Price{}, fmt.Errorf("%q could mean thousands or a decimal comma; write it with a point", text)
	}
	whole, part, _ := strings.Cut(strings.ReplaceAll(digits, ",", "."), ".")
	if len(part) > mostPriceDecimals {
		return Price{}, fmt.Errorf("%q has more than %d decimals", text, mostPriceDecimals)
	}
	n, err := strconv.ParseUint(whole+part+strings.Repeat("0", mostPriceDecimals-len(part)), 10, 62)
	if err != nil {
		return Price{}, fmt.Errorf("%q is not a price; %s", text, pricesLike)
	}
	return Price{millionths: int64(n), decimals: len(part)}, nil
}

func isCurrency(word string) bool {
	runes := []rune(word)
	if len(runes) == 1 {
		return unicode.Is(unicode.Sc, runes[0])
	}
	return word == "" || len(word) == 3 && strings.IndexFunc(word, func(r rune) bool { return r < 'A' || r > 'Z' }) < 0
}

// Currency returns what the price's currency is called; "" where not said.
func (p Price) Currency() string { return p.currency }

// Zero reports whether it is nothing.
func (p Price) Zero() bool { return p.millionths == 0 }

// Plus adds two prices. A currency that is not said is the other's; two that
// differ are an error.
func (p Price) Plus(q Price) (Price, error) {
	if p.currency != "" && q.currency != "" && p.currency != q.currency {
		return Price{}, fmt.Errorf("prices in %s and in %s cannot be summed up; write all in one currency", p.currency, q.currency)
	}
	if p.currency == "" {
		p.currency = q.currency
	}
	p.millionths += q.millionths
	p.decimals = max(p.decimals, q.decimals)
	return p, nil
}

// Compare is -1, 0 or 1 as the price is less than, as much as or more than another;
// currencies aside.
func (p Price) Compare(q Price) int { return cmp.Compare(p.millionths, q.millionths) }

// Times returns the price of so many.
func (p Price) Times(n int) Price {
	p.millionths *= int64(n)
	return p
}

// Shared returns one of n equal shares, rounded half up to the decimals that
// it is shown with: at least two.
func (p Price) Shared(n int) Price {
	p.decimals = max(2, p.decimals)
	step := int64(1)
	for range mostPriceDecimals - p.decimals {
		step *= 10
	}
	by := step * int64(n)
	p.millionths = (2*p.millionths + by) / (2 * by) * step
	return p
}

// Amount writes the number: with at least two decimals where it has any.
func (p Price) Amount() string {
	decimals := p.decimals
	if decimals > 0 {
		decimals = max(2, decimals)
	}
	text := fmt.Sprintf("%d.%06d", p.millionths/million, p.millionths%million)
	return strings.TrimSuffix(text[:len(text)-mostPriceDecimals+decimals], ".")
}

// String writes the price: "0.85 EUR", "€0.85", or the number alone.
func (p Price) String() string {
	switch {
	case p.currency == "":
		return p.Amount()
	case len(p.currency) == 3 && p.currency[0] < 0x80:
		return p.Amount() + " " + p.currency
	}
	return p.currency + p.Amount()
}
