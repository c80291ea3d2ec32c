package page

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"panelry/layouts"
	"panelry/layouts/papers"
)

// A slipAnswer is a changed answer on a panel's slip. Its field carries the
// card and the panel, since another may be looked at when the answer comes.
type slipAnswer struct {
	what, panel, answer string
	card                int
}

// slipField names a field of the open slip: "panel.paper 2 A1a".
func (s *state) slipField(what string) string { return fmt.Sprintf("%s %d %s", what, s.card, s.panel) }

// slipAnswer reads a field of a slip; nil where it changes nothing.
func (s *state) slipAnswer(key, answer string) *slipAnswer {
	what, rest, _ := strings.Cut(key, " ")
	number, panel, _ := strings.Cut(rest, " ")
	card, err := strconv.Atoi(number)
	if err != nil || what != slipPaper && what != slipWay || !s.drawn || card < 1 || card > s.kit.Design.Batch.Cards {
		return nil
	}
	a := slipAnswer{what, panel, strings.TrimSpace(answer), card}
	at := s.at(a)
	p := at.openPanel()
	if p == nil || what == slipPaper && a.answer == at.paperOn(*p).Name || what == slipWay && a.answer == at.wayOf(*p) {
		return nil
	}
	return &a
}

// The answers of a slip.
const slipPaper, slipWay = "panel.paper", "panel.way"

// at is the same design with the slip open that an answer is of.
func (s *state) at(a slipAnswer) *state {
	v := s.view
	v.card, v.panel = a.card, a.panel
	return newState(s.worked, v)
}

// panelChange carries out an answer of a slip, and looks at what was looked
// at before.
func (sv *Server) panelChange(ctx context.Context, s *state, a slipAnswer) (*state, string, error) {
	change := sv.panelPaper
	if a.what == slipWay {
		change = sv.panelWay
	}
	next, name, err := change(ctx, s.at(a), a.answer)
	if err != nil {
		return nil, "", err
	}
	after := newState(next.worked, s.view)
	after.errors = next.errors
	return after, name, nil
}

// panelPaper gives the panel whose slip is open another paper: on every card
// where all cards are alike, else on this card, by hand.
func (sv *Server) panelPaper(ctx context.Context, s *state, name string) (*state, string, error) {
	if s.paperless() {
		return s, "", nil
	}
	alike := s.design.Batch.Plan == "same" || s.design.Batch.Cards == 1 && s.raw["batch.by_hand"] == ""
	var edits []layouts.Edit
	if _, apart := s.dotted("front.papers"); alike && apart {
		edits = append(edits, layouts.Edit{Key: "front.papers." + s.panel, Value: layouts.QuoteText(name)})
	} else if alike {
		var items []string
		for _, p := range s.kit.Card.Panels {
			paper := p.Paper
			if p.Name == s.panel {
				paper = name
			}
			items = append(items, layouts.QuoteText(p.Name)+" = "+layouts.QuoteText(paper))
		}
		edits = append(edits, layouts.Edit{Key: "front.papers", Value: "{" + strings.Join(items, ", ") + "}"})
	} else {
		edits = append(edits,
			layouts.Edit{Key: "batch.plan", Value: `"by hand"`},
			layouts.Edit{Key: "batch.by_hand", Value: s.dealt(func(card int, panel string) (string, bool) {
				return name, card == s.card && panel == s.panel
			})})
	}
	return sv.rewritten(ctx, s, edits, "paper of "+s.panel, slipPaper)
}

// panelWay lets the pattern of the panel whose slip is open run another way.
func (sv *Server) panelWay(ctx context.Context, s *state, typed string) (*state, string, error) {
	front := s.design.Front
	rest := front.Direction.String()
	var items []string
	for _, p := range s.kit.Card.Panels {
		way := ""
		if d, ok := front.DirectionOf[p.Name]; ok {
			way = d.String()
		}
		if p.Name == s.panel {
			way = typed
		}
		if way != "" && way != rest {
			items = append(items, layouts.QuoteText(p.Name)+" = "+layouts.QuoteText(way))
		}
	}
	value := layouts.QuoteText(rest)
	if len(items) > 0 {
		value = "{" + strings.Join(append(items, "rest = "+value), ", ") + "}"
	}
	return sv.rewritten(ctx, s, []layouts.Edit{{Key: "front.direction", Value: value}}, "direction of "+s.panel, slipWay)
}

func (sv *Server) rewritten(ctx context.Context, s *state, edits []layouts.Edit, name, key string) (*state, string, error) {
	text, err := layouts.Rewrite(s.text, edits)
	if err != nil {
		s.errors[key] = wrong{text: sentence(err.Error())}
		return s, "", nil
	}
	return sv.done(ctx, s, text, name, key)
}

// openPanel is the panel whose slip is open; nil for none.
func (s *state) openPanel() *layouts.Panel {
	if !s.drawn {
		return nil
	}
	for i := range s.kit.Card.Panels {
		if s.kit.Card.Panels[i].Name == s.panel {
			return &s.kit.Card.Panels[i]
		}
	}
	return nil
}

// paperOn is the paper of a panel on the card that is looked at.
func (s *state) paperOn(p layouts.Panel) papers.Paper { return s.kit.PaperOn(p, s.card) }
