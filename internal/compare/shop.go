package compare

import (
	"fmt"
	"strings"
)

// shopHead is a shop of two channels and four rules, up to its products. All figures are invented.
const shopHead = `{
	"version": 1, "currency": "EUR", "price_limit": "500.00",
	"supplies": [
		{"id": "paper", "quantity": "25 sheet", "price": "70.00", "freight": "7.40"},
		{"id": "ink", "quantity": "80 ml", "price": "46.00"},
		{"id": "sleeve", "quantity": "100 sleeve", "price": "13.00"},
		{"id": "board", "quantity": "50 board", "price": "28.00", "freight": "5.00"},
		{"id": "mailer", "quantity": "50 mailer", "price": "33.00"}
	],
	"stages": [{"id": "print", "yield": "92%"}, {"id": "finish", "yield": "98%"}],
	"contingency": "4%",
	"channels": [
		{
			"id": "own-shop", "packing": "parcel", "lost_parcels": "1%", "tax": {"rate": "20%", "in_price": true, "on_shipping": true},
			"orders": [{"share": "70%", "shipping": "4.50", "postage": "5.20"}, {"share": "30%", "items": 2, "shipping": "4.50", "free_from": "60.00", "postage": "6.10"}],
			"fees": [{"name": "payment", "rate": "2.1%", "fixed": "0.27", "of": ["items", "shipping"]}]
		},
		{
			"id": "marketplace", "packing": "parcel", "lost_parcels": "1%", "uplift": "10%", "tax": {"rate": "20%", "in_price": true, "on_shipping": true},
			"orders": [{"shipping": "4.50", "postage": "5.20"}],
			"fees": [{"name": "commission", "rate": "9%", "of": ["items", "shipping"]}, {"name": "payment", "rate": "3.3%", "fixed": "0.27", "of": ["items", "shipping"]}]
		}
	],
	"rules": [
		{"id": "three times cost", "rule": "cost_multiple", "at_least": "3"},
		{"id": "a tenth is left", "rule": "net_margin", "at_least": "10%"},
		{"id": "something is left", "rule": "contribution", "at_least": "2.00", "asked_of": "worst"},
		{"id": "whole or half", "rule": "ending", "ends_in": ["0.00", "0.50"], "strength": "prefer"}
	],
	"products": [`

// Product is what one product of the shop has of its own. Paper and ink are in tenths of a sheet
// and of a millilitre; Price is today's, in cents.
type Product struct {
	ID, Price   int64
	Paper, Ink  int64
	Good, Tests int64
}

// NthProduct returns the i-th product of the shop that is timed.
func NthProduct(i int64) Product {
	return Product{ID: i, Price: 1450 + i%40*100, Paper: i%3*10 + 5, Ink: i%4*10 + 3, Good: 10 + i%30, Tests: 2}
}

// productText is a product as it stands in the document, between its figures.
var productText = strings.Split(`{"id": "heron-#", "name": "Heron at dawn, No. #", "price": "#.#", "bill": [
		{"supply": "paper", "quantity": "#.# sheet", "stage": "print"}, {"supply": "ink", "quantity": "#.# ml", "stage": "print"}
	], "packing": {"parcel": [
		{"supply": "sleeve", "quantity": "1 sleeve", "stage": "finish"}, {"supply": "board", "quantity": "0.5 board", "stage": "finish"},
		{"supply": "mailer", "quantity": "1 mailer", "per": "order"}
	]}, "run": {"good": #, "tests": #}}`, "#")

// Document returns the shop with so many products as JSON.
func Document(products int, nth func(i int64) Product) []byte {
	var b strings.Builder
	b.WriteString(shopHead)
	for i := range int64(products) {
		if i > 0 {
			b.WriteString(",\n")
		}
		p := nth(i)
		figures := []string{
			fmt.Sprint(p.ID), fmt.Sprint(p.ID), fmt.Sprint(p.Price / 100), fmt.Sprintf("%02d", p.Price%100),
			fmt.Sprint(p.Paper / 10), fmt.Sprint(p.Paper % 10), fmt.Sprint(p.Ink / 10), fmt.Sprint(p.Ink % 10),
			fmt.Sprint(p.Good), fmt.Sprint(p.Tests),
		}
		for j, figure := range figures {
			b.WriteString(productText[j])
			b.WriteString(figure)
		}
		b.WriteString(productText[len(figures)])
	}
	b.WriteString("]}")
	return []byte(b.String())
}
