package page

import (
	"fmt"
	"html/template"

	"panelry/layouts/papers"
)

// Paper is a row of the ledger.
type paperRow struct {
	Number     int
	Key        string // "papers.3"
	Paper      papers.Paper
	Swatch     template.HTML
	Use        string
	Sheets     string
	Few        bool // fewer at hand than needed
	IsBase     bool
	First, End bool
}

// Ledger lists the papers.
func (p *pageData) Ledger() []paperRow {
	var rows []paperRow
	list := p.design.Papers
	for i, paper := range list {
		row := paperRow{Number: i, Key: fmt.Sprintf("papers.%d", i), Paper: paper, IsBase: paper.Name == p.design.Card.Paper, First: i == 0, End: i == len(list)-1}
		row.Swatch = template.HTML(fmt.Sprintf(`<svg viewBox="0 0 14 12.6" preserveAspectRatio="xMidYMid slice" aria-hidden="true"><rect width="14" height="12.6" fill="%s"/></svg>`, p.In.Fill(paper, 0)))
		if p.planned && i < len(p.kit.Stock) {
			use := p.kit.Stock[i]
			row.Use, row.Sheets = counted(use.Pieces, "piece", "pieces"), counted(use.Sheets, "sheet", "sheets")
			if paper.Have != nil {
				row.Sheets = fmt.Sprintf("%d of %d sheets", use.Sheets, *paper.Have)
				if row.Few = use.Sheets > *paper.Have; row.Few {
					row.Sheets = fmt.Sprintf("needs %d, has %d", use.Sheets, *paper.Have)
				}
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// mostDeck is how many cards of the batch are drawn each by itself, and
// mostSmall how many panels all of them together, or pieces all small sheets.
const (
	mostDeck  = 24
	mostSmall = 4000
)

// deckSize is how many cards are drawn: fewer of fronts with many panels.
func (p *pageData) deckSize() int {
	return max(1, min(mostDeck, mostSmall/max(1, len(p.kit.Card.Panels))))
}

// A deckCard is a card of the batch, or several that are alike.
type deckCard struct {
	Name, Link string
	Now        bool
	Small      template.HTML
}

// Deck lists the cards; of more than mostDeck each different one once.
func (p *pageData) Deck() []deckCard {
	n := p.kit.Design.Batch.Cards
	var deck []deckCard
	at := map[string]int{}
	numbers := map[int][]int{}
	for card := 1; card <= n && len(deck) < p.deckSize(); card++ {
		key := fmt.Sprint(card)
		if n > mostDeck {
			key = ""
			for _, panel := range p.kit.Card.Panels {
				key += p.kit.PaperOn(panel, card).Name + "\n"
			}
		}
		i, known := at[key]
		if !known {
			i = len(deck)
			at[key] = i
			v := p.view
			v.card = card
			deck = append(deck, deckCard{Link: p.link(v, "card"), Small: p.smallCard(p.In, card)})
		}
		numbers[i] = append(numbers[i], card)
		deck[i].Now = deck[i].Now || card == p.card
	}
	for i := range deck {
		list := numbers[i]
		deck[i].Name = fmt.Sprintf("Card %d", list[0])
		if len(list) > 1 {
			deck[i].Name = fmt.Sprintf("Card %d and %d more", list[0], len(list)-1)
		}
	}
	return deck
}

// EvenText says whether the batch comes out even.
func (p *pageData) EvenText() (text string) {
	if even := p.kit.Swaps().Even; even != nil {
		return evenSentence(*even, p.kit)
	}
	return ""
}
