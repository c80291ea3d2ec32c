package page

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"panelry/layouts"
)

// ByHand reports that the papers of each card are named, or were chosen to be,
// so that the field for them shows.
func (p *pageData) ByHand() bool {
	plan, _ := layouts.ReadValue(p.raw["batch.plan"])
	return plan == "by hand" || p.Said("batch.by_hand") || p.errors["batch.plan"].typed == "by hand"
}

// handRows are the lines of the plan by hand; none where it is written in a
// way that its field cannot show.
func (s *state) handRows() []string {
	raw := s.raw["batch.by_hand"]
	c, _ := controlFor("batch.by_hand", s.layout())
	if typed := c.typedOf(raw); raw != "" && typed != raw {
		return strings.Split(typed, "\n")
	}
	return nil
}

// otherCards lets a plan by hand go with another number of cards: the first
// cards again after the last, or fewer.
func (s *state) otherCards(number string, typed map[string]string, set func(key, value string)) {
	n, err := strconv.Atoi(number)
	rows := s.handRows()
	if _, also := typed["batch.by_hand"]; also || err != nil || n < 1 || n > layouts.MostCards || len(rows) == 0 {
		return
	}
	for i := 0; len(rows) < n; i++ {
		rows = append(rows, rows[i])
	}
	c, _ := controlFor("batch.by_hand", s.layout())
	set("batch.by_hand", c.tomlOf(strings.Join(rows[:n], "\n"), ""))
}

// usedByName says where a paper is named besides the list of the panels'
// papers, so that it cannot be taken out; "" for nowhere.
func (s *state) usedByName(paper string) string {
	if paper == s.design.Card.Paper {
		return fmt.Sprintf("the base is cut from %s; choose another paper for the base first", paper)
	}
	holds := func(list []string, byPanel map[string]string) bool {
		for _, name := range byPanel {
			list = append(slices.Clone(list), name)
		}
		return slices.Contains(list, paper)
	}
	var cards []string
	for i, hand := range s.design.Batch.ByHand {
		if holds(hand.Papers, hand.ByPanel) {
			cards = append(cards, strconv.Itoa(i+1))
		}
	}
	if len(cards) > 0 {
		return fmt.Sprintf("the plan by hand has %s on %s; write another paper there first, or choose another plan", paper, someOf(cards, len(s.design.Batch.ByHand)))
	}
	if front := s.design.Front; front.ByPanel != nil && holds(front.Papers, front.ByPanel) {
		var panels []string
		for _, panel := range sortedKeys(front.ByPanel) {
			if front.ByPanel[panel] == paper {
				panels = append(panels, panel)
			}
		}
		if slices.Contains(front.Papers, paper) {
			panels = append(panels, "all others")
		}
		return fmt.Sprintf("%s is the paper of %s; give them another first", paper, strings.Join(panels, ", "))
	}
	return ""
}

// someOf names cards: all, one, or a few and how many more.
func someOf(cards []string, all int) string {
	const most = 6
	switch n := len(cards); {
	case n == all && n > 1:
		return "every card"
	case n == 1:
		return "card " + cards[0]
	case n > most:
		return "cards " + strings.Join(cards[:most], ", ") + fmt.Sprintf(" and %d more", n-most)
	default:
		return "cards " + and(cards)
	}
}
