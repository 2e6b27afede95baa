// Package quoin holds the basic types of print economics: money, shares, multiples, measured
// quantities, currencies and the price grid. The packages below it do the work:
//
//	cost                     what making one costs: supplies as bought, bills of materials, runs
//	cost/cut                 pieces out of a sheet, a roll, a stick
//	cost/ink                 the ink of an image
//	cost/machine             what a machine adds to a print
//	cost/frame               moulding, mats, united inches
//	cost/paper               grammage and mass
//	cost/buy                 invoices, price breaks, stock
//	cost/source              make or buy, and how many to order
//	waste                    what is spoiled: stages and yields, how many to start
//	channel                  what an order brings in and takes away: tax, fees, postage;
//	                         trade, consignment, on demand
//	channel/promo            what promotions take off a basket
//	channel/refund           what a refund costs
//	channel/parcel           what sending prints costs
//	channel/fair             whether a fair pays
//	margin                   what is left: goods, statement, margins, break-even
//	margin/edition           limited editions: steps of price, proceeds, the ledger
//	margin/comparables       prices of prints elsewhere
//	margin/market            what prints like one's own sell for
//	margin/trial             what a price that was tried brought
//	margin/history           what was asked, sold and tried, line by line
//	margin/rule              which prices a rule allows, as sets
//	margin/pricelist         the front door: a shop document in, a decided price list out
//	margin/pricelist/sheet   an answer as text and Markdown
//	margin/pricelist/embedded  one call for programs in other languages
//	margin/pricelist/proof   the statements of an answer as sheets of formulas
//	margin/pricelist/tables  a shop document as sheets of rows of text
//	margin/pricelist/review  a price list a year later
//	margin/pricelist/annual  the yearly review as text and Markdown
//
// # Numbers
//
//	Amount    money                            17.50
//	Rate      a share                          7.4%
//	Factor    a multiple                       3.5
//	Quantity  a measured or counted number     0.5 sheet
//	Size      two lengths                      297 x 420 mm, A3
//	Range     a lowest and a highest value     17.00 to 18.50
//
// They are different types. So a rate cannot be added to money, and 7.4 cannot pass for 7.4%. All
// are immutable values, the zero value is zero, and no float is ever involved.
//
// Adding, subtracting and multiplying are exact. A quotient that does not end has 34 significant
// digits. Before it is compared, rounded or counted in steps, it is rounded to 12 places: 3 ×
// (20.00 ÷ 3) is 20.00 and never 20.01. Money is rounded where a doc comment says so, once, halves
// away from zero unless a Rounding says otherwise. Arithmetic returns no errors. Dividing by zero
// panics, as it does for integers; no input of a document leads there.
//
// # Text
//
// An Amount is written with as many digits after the point as it was given, built or rounded with.
// Those are usually the digits of its currency's minor unit. It has more digits only if they are
// not zeros: "1.20", "0.625". A sum has the most digits of its parts; a product or quotient has
// those of the money in it. All other numbers are written without zeros at the end: "7.5%", "0.5
// sheet". Comparing compares values, not digits.
//
// Every type reads and writes text, JSON (a string or a number, read from its digits) and SQL
// values, and prints with fmt and log/slog. The length of what is read is checked before the value
// is built:
//
//   - ParseAmount and its like read what a person wrote. An Amount has at most 12 digits before
//     the point and 8 after it, also in a document.
//   - UnmarshalText, UnmarshalJSON and Scan read back what a program stored: at most 1,000 digits
//     before the point and 1,000 after it.
//
// A quotient that does not end is written, and comes back, with 12 places. MarshalBinary, which
// gob uses, keeps all its digits.
//
// # Databases
//
// Value and Scan are for columns of these types:
//
//	                      PostgreSQL        SQLite    MySQL           stored as
//	Amount, Factor, Rate  NUMERIC           TEXT      DECIMAL(24,12)  17.50, 3.5, 0.074 of 7.4%
//	Quantity, Size        TEXT              TEXT      VARCHAR(100)    0.5 sheet, 297 x 420 mm
//	Range                 TEXT              TEXT      VARCHAR(200)    17.00 to 18.50, 5% to 8%
//	Currency              TEXT              TEXT      VARCHAR(3)      EUR
//	Date                  DATE              TEXT      DATE            2026-03-01
//	Optional              the column of what it holds, which may be NULL
//
// NUMERIC without a scale keeps every digit. With a scale, such as NUMERIC(24,12), it rounds finer
// values. SQLite has no exact numbers: it turns NUMERIC into a float, which Scan refuses. A Rate
// is stored as a fraction of 1, and a number is read as one, so 1.5 is 150%. 7.4% with its sign is
// read too.
//
// Explanations are read back too: a Step, a list of steps, a Journal. A Figure in them keeps its
// kind. Replay accepts stored steps as it accepts new ones.
//
// What quoin computes are estimates from the user's own figures. It is not tax, legal or
// accounting advice.
package quoin
