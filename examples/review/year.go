package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/pricelist"
)

// year is all that a review looks at.
type year struct {
	last, now pricelist.Document
	history   history.History
	market    []comparables.Record
	brief     brief
}

// brief is the day of the review, and the bounds of what it may propose.
type brief struct {
	Today quoin.Date `json:"today"`
	// Move is how far a price may move at once.
	Move quoin.Rate `json:"move"`
	// Tax is what the prices of the list hold, so that comparables hold it too.
	Tax quoin.Rate `json:"tax"`
	// ToCome is the exposure still to come in each channel, of the kind that its
	// trials are counted in: what is learnt pays for so long.
	ToCome []toCome `json:"to_come"`
}

type toCome struct {
	Channel  string       `json:"channel"`
	Exposure quoin.Factor `json:"exposure"`
}

func read(files fs.FS) (year, error) {
	var y year
	for _, part := range []struct {
		file string
		read func([]byte) error
	}{
		{"last.json", func(data []byte) (err error) { y.last, err = pricelist.Decode(data); return err }},
		{"now.json", func(data []byte) (err error) { y.now, err = pricelist.Decode(data); return err }},
		{"history.jsonl", func(data []byte) (err error) { y.history, err = past(data); return err }},
		{"market.json", func(data []byte) error { return strictly(data, &y.market) }},
		{"review.json", func(data []byte) error { return strictly(data, &y.brief) }},
	} {
		data, err := fs.ReadFile(files, part.file)
		if err != nil {
			return year{}, err
		}
		if err := part.read(data); err != nil {
			return year{}, fmt.Errorf("%s: %w", part.file, err)
		}
	}
	if y.brief.Today.IsZero() {
		return year{}, fmt.Errorf("review.json: found no today, wanted the day of the review")
	}
	return y, nil
}

func past(data []byte) (history.History, error) {
	records, err := history.ReadAll(bytes.NewReader(data))
	if err != nil {
		return history.History{}, err
	}
	return history.New(records)
}

// strictly reads JSON, and refuses fields that it does not know.
func strictly(data []byte, to any) error {
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	return d.Decode(to)
}

// inForce is the price of each product on the day of the review, where no channel
// says another.
func (y year) inForce() (map[string]quoin.Amount, error) {
	prices := map[string]quoin.Amount{}
	for _, p := range y.now.Products {
		if !slices.Contains(y.history.Products(), p.ID) {
			continue
		}
		t, err := y.history.Timeline(p.ID, "")
		if err != nil {
			return nil, err
		}
		if held, ok := t.On(y.brief.Today); ok {
			prices[p.ID] = held.Price
		}
	}
	return prices, nil
}

// horizon is the exposure to come in a channel; zero where the brief says none.
func (b brief) horizon(channel string) quoin.Factor {
	for _, c := range b.ToCome {
		if c.Channel == channel {
			return c.Exposure
		}
	}
	return quoin.Factor{}
}
