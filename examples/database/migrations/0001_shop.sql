-- What the shop buys, makes and sells. A column has the name of the field of the shop document
-- that it stands for, and NULL is "not given". A column of type JSON holds the JSON of its field.
--
-- NUMERIC keeps money exactly as it was written, 0.10 as 0.10. SQLite would make a binary float
-- of it, so the program writes TEXT for it there. A rate is a fraction: 0.02 is 2%.

CREATE TABLE shop (
	position    INTEGER PRIMARY KEY CHECK (position = 1), -- there is one shop
	currency    TEXT NOT NULL,
	price_step  NUMERIC,
	price_limit NUMERIC,
	contingency NUMERIC,
	overhead    JSON,
	income_tax  NUMERIC,
	choose      TEXT
);

CREATE TABLE supplies (
	id       TEXT PRIMARY KEY,
	position INTEGER NOT NULL UNIQUE,
	name     TEXT,
	note     TEXT,
	quantity TEXT,
	price    NUMERIC,
	discount NUMERIC,
	freight  NUMERIC,
	duty     NUMERIC,
	exchange NUMERIC,
	labour   TEXT,
	sheet    JSON,
	yearly   JSON
);

CREATE TABLE stages (
	id              TEXT PRIMARY KEY,
	position        INTEGER NOT NULL UNIQUE,
	note            TEXT,
	yield           NUMERIC,
	lost_of_started NUMERIC,
	recovery        NUMERIC
);

CREATE TABLE products (
	id       TEXT PRIMARY KEY,
	position INTEGER NOT NULL UNIQUE,
	name     TEXT,
	note     TEXT,
	design   TEXT,
	image    TEXT,
	sheet    TEXT,
	channels JSON,
	packing  JSON
);

CREATE TABLE bill (
	product  TEXT NOT NULL REFERENCES products ON DELETE CASCADE,
	position INTEGER NOT NULL,
	supply   TEXT NOT NULL REFERENCES supplies,
	quantity TEXT,
	stage    TEXT REFERENCES stages,
	per      TEXT,
	area     TEXT,
	cut      JSON,
	PRIMARY KEY (product, position)
);

CREATE TABLE channels (
	id             TEXT PRIMARY KEY,
	position       INTEGER NOT NULL UNIQUE,
	name           TEXT,
	note           TEXT,
	packing        TEXT,
	trade_discount JSON,
	tax            JSON,
	orders         JSON
);

CREATE TABLE fees (
	channel  TEXT NOT NULL REFERENCES channels ON DELETE CASCADE,
	position INTEGER NOT NULL,
	name     TEXT,
	note     TEXT,
	rate     NUMERIC,
	of       JSON,
	without_tax JSON,
	fixed    NUMERIC,
	per      TEXT,
	at_least NUMERIC,
	at_most  NUMERIC,
	share    NUMERIC,
	tax      NUMERIC,
	PRIMARY KEY (channel, position)
);

-- at_least and at_most are TEXT: they are money, a share or a multiple, by the kind of the rule.
CREATE TABLE rules (
	id       TEXT PRIMARY KEY,
	position INTEGER NOT NULL UNIQUE,
	note     TEXT,
	rule     TEXT NOT NULL,
	strength TEXT,
	at_least TEXT,
	at_most  TEXT,
	ends_in  JSON,
	products JSON,
	channels JSON
);

-- Every list that was ever decided: when, from what, and the whole answer.
CREATE TABLE price_history (
	id            INTEGER PRIMARY KEY,
	decided_on    DATE NOT NULL,
	document_hash TEXT NOT NULL, -- SHA-256 of document
	standing_hash TEXT NOT NULL, -- of the same document with the new prices as today's
	document      JSON NOT NULL,
	answer        JSON NOT NULL
);

-- The current list: today's prices.
CREATE TABLE prices (
	product TEXT PRIMARY KEY REFERENCES products ON DELETE CASCADE,
	price   NUMERIC NOT NULL,
	list    INTEGER REFERENCES price_history DEFERRABLE INITIALLY DEFERRED -- NULL: set by hand
);

-- Why a price is not lower, and not higher: what refuses the nearest price on that side.
CREATE TABLE reasons (
	product  TEXT NOT NULL REFERENCES products ON DELETE CASCADE,
	side     TEXT NOT NULL CHECK (side IN ('lower', 'higher')),
	position INTEGER NOT NULL,
	refused  NUMERIC NOT NULL,
	rule     TEXT NOT NULL,
	channel  TEXT,
	asked    TEXT NOT NULL,
	got      TEXT NOT NULL,
	PRIMARY KEY (product, side, position)
);
