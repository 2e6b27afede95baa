// Package quoin holds the words of print economics: money, shares, multiples,
// measured quantities, currencies and the price grid. The packages below it do
// the work:
//
//	cost              what making one costs: supplies as bought, bills of materials, runs
//	cost/cut          pieces out of a sheet, a roll, a stick
//	cost/ink          the ink of an image
//	cost/machine      what a machine adds to a print
//	cost/frame        moulding, mats, united inches
//	cost/paper        grammage and mass
//	cost/buy          invoices, price breaks, stock
//	cost/source       make or buy, and how many to order
//	waste             what is lost on the way: stages and yields, how many to start
//	channel           what selling one brings in and takes away: orders, tax, fees, postage;
//	                  trade, consignment, on demand
//	channel/promo     what promotions take off a basket
//	channel/refund    what giving money back comes to
//	channel/parcel    what sending prints costs
//	channel/fair      whether a fair pays
//	margin            what is left: goods, statement, margins, break-even
//	margin/edition    limited editions: steps of price, takings, the ledger
//	margin/rule       which prices a rule allows, as sets
//	margin/pricelist  the front door: a shop document in, a decided price list out
//
// # Numbers
//
// Amount is money, Rate a share ("7.4%"), Factor a multiple ("3.5"), Quantity
// a measured or counted number ("0.5 sheet"), Size two lengths ("297 x 420
// mm", "A3"), Range what a value lies between. They are different types, so a
// rate cannot be added to money and 7.4 cannot pass for 7.4%. All are
// immutable values; the zero value is zero; no float is ever involved.
//
// Adding, subtracting and multiplying are exact. Dividing carries 34
// significant digits, and a result that had to be cut remembers it: it is
// quantized to 12 places before it is compared, rounded or counted in steps,
// so 3 × (20.00 ÷ 3) is 20.00 and never 20.01. Rounding to money happens where
// a doc comment says so, once, halves away from zero unless a Rounding says
// otherwise. Arithmetic returns no errors; dividing by zero panics, as it does
// for integers, and no input of a document leads there.
//
// # Text
//
// Numbers are written by one rule. An Amount is written with as many digits after the
// point as it was given, built or rounded with, which are those of its currency's minor
// unit, and with more only where they are not zeros: "1.20", "0.625". A sum keeps the most of
// its parts, a product or quotient those of the money in it. All other numbers are written
// without zeros behind: "7.5%", "0.5 sheet". What is compared is the value.
//
// Every type reads and writes text, JSON (a string or a number, read from its
// digits) and SQL values, and prints with fmt and log/slog. What is read is
// bounded before it is built. What a person wrote is read by ParseAmount and its
// like, with close bounds: an Amount has at most 12 digits before the point and 8
// after it, also in a document. What a program stored is read back by
// UnmarshalText, UnmarshalJSON and Scan, whatever sums it came from: with at most
// 1,000 digits before the point and 1,000 after it. A quotient that goes on comes
// back as it is written, to 12 places; MarshalBinary, which gob uses, keeps it whole.
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
//	quoin.Date              DATE              TEXT      DATE            2026-03-01
//	Optional              the column of what it holds, which may be NULL
//
// NUMERIC without a scale keeps every digit; one with a scale, such as
// NUMERIC(24,12), rounds what is finer. SQLite has no exact numbers: it turns
// NUMERIC into a float, which Scan refuses. A Rate is stored as a fraction of 1 and
// a number is read as one, so that 1.5 is 150%; 7.4% with its sign is read too.
//
// Explanations are read back too: a Step, a list of them, a Journal. A Figure in
// them keeps its kind, and Replay takes steps that were stored as it takes those
// that were made.
//
// What quoin computes are estimates from the user's own figures. It is not
// tax, legal or accounting advice.
package quoin
