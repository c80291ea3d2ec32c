package markup

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var seeds = []string{
	"", " ", "<a/>", "<", "<a", "<a></a>", "<a></b>", "</a>", "\x00", "<a>\x01</a>", "<a><a><a>", "<a/><a/>", "<a/>b", "<a b='1' b='2'/>", "<a b='1'c='2'/>",
	"<a b = \"&#60;\" c='é'>&amp;<![CDATA[<b>]]><!-- c --><?p q?></a>", "<!-->-->", "<a:b xmlns:a='u' a:c='1'/>", "<a xmlns:p='u' xmlns:q='u' p:x='' q:x=''/>",
	"<?xml version='1.0' encoding='latin1'?><a>\xe9\x80</a>", "<?xml version='1.0' encoding='utf-16'?><a/>", "<?xml version='1.1'?><a/>", " <?xml version='1.0'?><a/>",
	"\uFEFF<a/>", "\xff\xfe<\x00a\x00/\x00>\x00", "\xfe\xff\x00<\x00a\x00/\x00>", "\xff\xfe<", "\x1f\x8b", "\x1f\x8b\x08\x00\x00\x00\x00\x00\x00\x00",
	"<!DOCTYPE a><a/>", "<!DOCTYPE a PUBLIC \"p\" 's' [ ]><a/>", "<!DOCTYPE a [<!ENTITY e 'x\"'>]><a b=\"&e;\">&e;é</a>", "<!DOCTYPE a [<!ENTITY e '<b c=\"&f;\"/>'><!ENTITY f \"'\">]><a>&e;</a>",
	"<!DOCTYPE a [<!ENTITY e '&#38;#60;&#x41;&#xD800;&#0;&#;'>]><a>&e;</a>", "<!DOCTYPE a [<!ENTITY e '&e;&e;'>]><a>&e;</a>", "<!DOCTYPE a [<!ENTITY e SYSTEM 'f'><!ENTITY % p ''>%p;<!ATTLIST a b CDATA ''>]><a>&e;</a>",
	"<!DOCTYPE a [<!-- ' --><?p '?><!ENTITY e '", "<!DOCTYPE a [<!ENTITY e ''>]><a>&e;<![CDATA[&e;]]><!-- &e; --><?p &e;?></a>", "<!DOCTYPE a [<!ENTITY ",
}

func FuzzOpen(f *testing.F) {
	for _, seed := range seeds {
		f.Add([]byte(seed))
	}
	f.Add([]byte(packed(f, "<!DOCTYPE a [<!ENTITY e 'x'>]><a b='&e;'/>")))
	f.Fuzz(func(t *testing.T, data []byte) {
		tokens, odd, err := Open(data)
		if err != nil {
			require.Nil(t, tokens)
			require.Nil(t, odd)
			checkSound(t, nil, nil, err)
			return
		}
		all, err := readAll(tokens)
		checkSound(t, tokens, all, err)
		for _, place := range tokens.Places(starts(tokens.text)) {
			require.GreaterOrEqual(t, place.Line, 1)
			require.GreaterOrEqual(t, place.Column, 1)
		}
		for _, o := range odd {
			require.NotEmpty(t, o.Text)
			require.GreaterOrEqual(t, o.Line, 1)
		}
		if strings.Contains(tokens.file, "<!DOCTYPE") || err != nil {
			return
		}
		require.Equal(t, tokens.file, tokens.text)
		names, err := namesBySelf(tokens.file)
		require.NoError(t, err)
		require.Equal(t, names, namesOf(all))
	})
}

// What New takes, Open takes too, and reads the same from it. Files that name
// an encoding are left to the tables.
func FuzzNew(f *testing.F) {
	for _, seed := range seeds {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		tokens, err := New(data)
		if err != nil {
			checkSound(t, nil, nil, err)
			return
		}
		all, err := readAll(tokens)
		checkSound(t, tokens, all, err)
		at := starts(tokens.text)
		for i, place := range tokens.Places(at) {
			if i < 200 { // the slow way is slow
				require.Equal(t, placeSlowly(tokens.text, at[i]), place)
			}
		}
		if err != nil || strings.Contains(tokens.text, "encoding") {
			return
		}
		again, odd, err := Open(data)
		require.NoError(t, err)
		require.Empty(t, odd)
		opened, err := readAll(again)
		require.NoError(t, err)
		require.Equal(t, all, opened)
	})
}
