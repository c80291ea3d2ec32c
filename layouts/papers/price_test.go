package papers_test

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/layouts/papers"
)

func price(t require.TestingT, text string) papers.Price {
	p, err := papers.ParsePrice(text)
	require.NoError(t, err)
	return p
}

func TestParsePrice(t *testing.T) {
	for text, want := range map[string]string{
		"0.85": "0.85", "0,85": "0.85", "3": "3", "1.5": "1.50", "0.0125": "0.0125", "007.10": "7.10",
		"0.85 EUR": "0.85 EUR", "EUR 0.85": "0.85 EUR", "0,85EUR": "0.85 EUR",
		"€0.85": "€0.85", "0,85 €": "€0.85", "$ 3": "$3", "¥120": "¥120", "1000000": "1000000",
	} {
		require.Equal(t, want, price(t, text).String(), text)
	}
	const like = `; write it like 0.85 or "0.85 EUR"`
	for text, want := range map[string]string{
		"":                           `"" is not a price` + like,
		"cheap":                      `"cheap" is not a price` + like,
		"-1":                         `"-1" is not a price` + like,
		"0.85 euros":                 `"0.85 euros" is not a price` + like,
		"EUR 0.85 EUR":               `"EUR 0.85 EUR" is not a price` + like,
		"1.2.3":                      `"1.2.3" is not a price` + like,
		"1e3":                        `"1e3" is not a price` + like,
		"1,200":                      `"1,200" could mean thousands or a decimal comma; write it with a point`,
		"0.1234567":                  `"0.1234567" has more than 6 decimals`,
		"1000000.01":                 `"1000000.01" is more than 1000000`,
		"3 € a sheet 4":              `"3 € a sheet 4" is not a price` + like,
		"99999999999999999999999999": `"99999999999999999999999999" is not a price` + like,
	} {
		_, err := papers.ParsePrice(text)
		require.EqualError(t, err, want, text)
	}
	_, err := papers.ParsePrice(strings.Repeat("1", 41))
	require.ErrorContains(t, err, "is too long for a price")
}

func TestPriceCurrencies(t *testing.T) {
	sum, err := price(t, "0.85").Plus(price(t, "2 EUR"))
	require.NoError(t, err)
	require.Equal(t, "2.85 EUR", sum.String())
	require.Equal(t, "EUR", sum.Currency())
	_, err = sum.Plus(price(t, "1 USD"))
	require.EqualError(t, err, "prices in EUR and in USD cannot be summed up; write all in one currency")
	require.True(t, papers.Price{}.Zero())
	require.False(t, sum.Zero())
}

// Half a cent goes up; 10 shared by 3 and 6 by hand.
func TestPriceShared(t *testing.T) {
	for _, tt := range []struct {
		text string
		n    int
		want string
	}{{"10", 3, "3.33"}, {"10", 6, "1.67"}, {"0.05", 10, "0.01"}, {"0.04", 10, "0.00"}, {"0.0125", 2, "0.0063"}, {"12 EUR", 8, "1.50 EUR"}} {
		require.Equal(t, tt.want, price(t, tt.text).Shared(tt.n).String(), "%s by %d", tt.text, tt.n)
	}
}

// Sums are exact: held against rational numbers (math/big).
func TestPriceIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var sum papers.Price
		want := new(big.Rat)
		for range rapid.IntRange(1, 20).Draw(t, "terms") {
			text := fmt.Sprintf("%d.%02d", rapid.IntRange(0, 9999).Draw(t, "whole"), rapid.IntRange(0, 99).Draw(t, "part"))
			n := rapid.IntRange(0, 1000).Draw(t, "count")
			var err error
			sum, err = sum.Plus(price(t, text).Times(n))
			require.NoError(t, err)
			one, _ := new(big.Rat).SetString(text)
			want.Add(want, one.Mul(one, big.NewRat(int64(n), 1)))
		}
		require.Equal(t, want.FloatString(2), sum.Amount())
	})
}

func FuzzParsePrice(f *testing.F) {
	for _, text := range []string{"0.85", "0,85 €", "EUR 3", "¥120", "1,200", "", "-", "9e9", "..", "€€1"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := papers.ParsePrice(text)
		if err != nil {
			require.Zero(t, p)
			return
		}
		again, err := papers.ParsePrice(p.String())
		require.NoError(t, err)
		require.Equal(t, p.String(), again.String())
	})
}
