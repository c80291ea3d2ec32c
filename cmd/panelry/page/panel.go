package page

import (
	"context"
	"strings"

	"panelry/layouts"
	"panelry/layouts/papers"
)

// panelPaper gives the panel whose slip is open another paper: on every card
// where all cards are alike, else on this card, by hand.
func (sv *Server) panelPaper(ctx context.Context, s *state, name string) (*state, string, error) {
	if !s.drawn || s.openPanel() == nil || s.paperless() {
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
	return sv.rewritten(ctx, s, edits, "paper of "+s.panel, "panel.paper")
}

// panelWay lets the pattern of the panel whose slip is open run another way.
func (sv *Server) panelWay(ctx context.Context, s *state, typed string) (*state, string, error) {
	if !s.drawn || s.openPanel() == nil {
		return s, "", nil
	}
	front := s.design.Front
	rest := front.Direction.String()
	var items []string
	for _, p := range s.kit.Card.Panels {
		way := ""
		if d, ok := front.DirectionOf[p.Name]; ok {
			way = d.String()
		}
		if p.Name == s.panel {
			way = strings.TrimSpace(typed)
		}
		if way != "" && way != rest {
			items = append(items, layouts.QuoteText(p.Name)+" = "+layouts.QuoteText(way))
		}
	}
	value := layouts.QuoteText(rest)
	if len(items) > 0 {
		value = "{" + strings.Join(append(items, "rest = "+value), ", ") + "}"
	}
	return sv.rewritten(ctx, s, []layouts.Edit{{Key: "front.direction", Value: value}}, "direction of "+s.panel, "panel.way")
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
