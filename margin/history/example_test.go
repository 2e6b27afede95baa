package history_test

import (
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/history"
)

// A linocut of a bittern and a small one of a heron; all figures are invented.
const kept = `{"record":"price","product":"bittern-a3","price":"79.00","from":"2026-01-10"}
{"record":"price","product":"bittern-a3","price":"84.00","from":"2026-04-01"}
{"record":"reduction","product":"bittern-a3","channel":"web","price":"72.00","from":"2026-05-10","until":"2026-05-24"}
{"record":"reduction","product":"bittern-a3","channel":"web","price":"65.00","from":"2026-05-24","until":"2026-06-01"}
{"record":"sale","edition":"bittern","number":1,"date":"2026-01-17","channel":"web","price":"79.00"}
{"record":"sale","edition":"bittern","number":7,"date":"2026-03-12"}
{"record":"trial","id":"heron-15","product":"heron-a5","channel":"web","price":"15.00","from":"2026-02-01","until":"2026-03-01","exposure":"412","exposure_unit":"visits","sold":9}
`

func opened() history.History {
	records, err := history.ReadAll(strings.NewReader(kept))
	if err != nil {
		panic(err)
	}
	h, err := history.New(records)
	if err != nil {
		panic(err)
	}
	return h
}

func ExampleRead() {
	for r, err := range history.Read(strings.NewReader(kept + `{"record":"sale","edition":"bittern","nummer":8,"date":"2026-02-30"}`)) {
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(r.Line, r.Entry.Kind())
	}
	// Output:
	// 1 price
	// 2 price
	// 3 reduction
	// 4 reduction
	// 5 sale
	// 6 sale
	// 7 trial
	// 8:47: lines[7].nummer: found the field "nummer", wanted one of record, edition, number, proof, date, channel, price; did you mean number? [unknown_field]
	// 8:56: lines[7].date: found "2026-02-30", wanted a date such as 2026-03-01 [bad_date]
	// 8:1: lines[7].number: found nothing, wanted the field number or proof [missing_field]
}

func ExampleAppend() {
	line, err := history.Append(nil, history.Sale{Edition: "bittern", Number: 8, Date: quoin.MustDate("2026-06-02"), Price: quoin.Some(quoin.MustAmount("84.00"))})
	fmt.Print(string(line), err)
	// Output:
	// {"record":"sale","edition":"bittern","number":8,"date":"2026-06-02","price":"84.00"}
	// <nil>
}

func ExampleNew() {
	records, _ := history.ReadAll(strings.NewReader(kept + `{"record":"sale","edition":"bittern","number":7,"date":"2026-05-02"}`))
	records = append(records, history.Record{Line: 9, Entry: history.Reduction{
		Product: "bittern-a3", Channel: "web", Price: quoin.MustAmount("70.00"), From: quoin.MustDate("2026-05-25"), Until: quoin.MustDate("2026-06-08"),
	}})
	_, err := history.New(records)
	fmt.Println(strings.ReplaceAll(err.Error(), ", wanted", ",\nwanted"))
	// Output:
	// 8:1: lines[7].number: found number 7 of "bittern", sold on 2026-05-02 and, in line 6, on 2026-03-12,
	// wanted each number once [number_twice]
	// 9:1: lines[8].from: found a reduction of "bittern-a3" from 2026-05-25 until 2026-06-08 that overlaps with that of line 4, from 2026-05-24 until 2026-06-01,
	// wanted one reduction on a day in a channel; end one before the other begins [overlap]
}

func ExampleHistory_Timeline() {
	web, _ := opened().Timeline("bittern-a3", "web")
	for _, s := range web.Held {
		fmt.Printf("%s %.2f, %s of line %d\n", s.Days, s.Price, s.Record, s.Line)
	}
	may, _ := web.On(quoin.MustDate("2026-05-24"))
	fmt.Printf("on 24 May %.2f\n", may.Price)
	// Output:
	// from 2026-01-10 until 2026-04-01 79.00, price of line 1
	// from 2026-04-01 until 2026-05-10 84.00, price of line 2
	// from 2026-05-10 until 2026-05-24 72.00, reduction of line 3
	// from 2026-05-24 until 2026-06-01 65.00, reduction of line 4
	// from 2026-06-01 84.00, price of line 2
	// on 24 May 65.00
}

func ExampleTimeline_Changes() {
	web, _ := opened().Timeline("bittern-a3", "web")
	for _, c := range web.Changes(quoin.MustDate("2026-05-01"), quoin.MustDate("2026-07-01")) {
		fmt.Println(c.On, c.Before, c.After)
	}
	// Output:
	// 2026-05-10 84.00 72.00
	// 2026-05-24 72.00 65.00
	// 2026-06-01 65.00 84.00
}

// The second step of a reduction: the first was a price in force before it.
func ExampleHistory_LowestBefore() {
	l, _ := opened().LowestBefore("bittern-a3", "web", quoin.MustDate("2026-05-24"), 30)
	by, _ := l.By.Get()
	fmt.Printf("%s: %s, the %s of line %d\n", l.Window, l.Price, by.Record, by.Line)
	for _, s := range l.Held {
		fmt.Printf("  %s %.2f\n", s.Days, s.Price)
	}
	// Output:
	// from 2026-04-24 until 2026-05-24: 72.00, the reduction of line 3
	//   from 2026-04-24 until 2026-05-10 84.00
	//   from 2026-05-10 until 2026-05-24 72.00
}

func ExampleHistory_LowestBeforeSeries() {
	l, _ := opened().LowestBeforeSeries("bittern-a3", "web", quoin.MustDate("2026-05-24"), 30)
	fmt.Printf("%s: %s, before a series of %d\n", l.Window, l.Price, len(l.Series))
	// Output: from 2026-04-10 until 2026-05-10: 84.00, before a series of 2
}

func ExampleEditionSales_Left() {
	s, _ := opened().Sold("bittern")
	for _, m := range s.Months {
		fmt.Print(m.Month, ": ", m.Numbers, "; ")
	}
	left, _ := s.Left(50, 5)
	fmt.Println(left.Numbers, "left,", left.FreeNumbers, "and proofs", left.FreeProofs)
	// Output: 2026-01: 1; 2026-02: 0; 2026-03: 1; 48 left, [2–6 8–50] and proofs [1–5]
}

func ExampleHistory_TrialsOf() {
	for _, t := range opened().TrialsOf("heron-a5", "web") {
		fmt.Println(t.Entry.ID, t.Entry.Sold, "sold of", t.Entry.Exposure, t.Entry.ExposureUnit)
	}
	// Output: heron-15 9 sold of 412 visits
}

// The records of the heron have a trial, and no price that it was offered at.
func ExampleHistory_Warnings() {
	records, _ := history.ReadAll(strings.NewReader(kept + `{"record":"price","product":"heron-a5","price":"16.00","from":"2026-02-15"}`))
	h, _ := history.New(records)
	fmt.Println(h.Warnings())
	// Output:
	// 7:1: lines[6].price: trial "heron-15" at 15.00, and on 2026-02-01 the records have no price in "web"; write down the price of the trial from its first day, and the one after it [trial_at_another_price]
}
