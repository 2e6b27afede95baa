-- The demo shop: a linocut artist of marsh birds. The artist, fees and prices are invented.

INSERT INTO shop (position, currency, price_step, price_limit) VALUES (1, 'EUR', '0.50', '100.00');

INSERT INTO supplies (id, position, name, quantity, price, freight, labour, yearly) VALUES
	('paper', 1, 'Cotton rag paper', '50 sheet', '62.00', '6.00', NULL, NULL),
	('my time', 2, 'Own time', '1 h', '17.00', NULL, 'own', NULL),
	('ink', 3, 'Relief ink', NULL, NULL, NULL, NULL, '{"spent": "120.00", "printed": "24 m2"}'),
	('mailer', 4, 'Rigid mailer', '50 piece', '40.00', NULL, NULL, NULL);

INSERT INTO stages (id, position, lost_of_started) VALUES ('print', 1, '0.15');

INSERT INTO products (id, position, name, image, packing) VALUES
	('heron-a4', 1, 'Heron, A4', '160 x 250 mm', '{"parcel": [{"supply": "mailer", "quantity": "1 piece", "per": "order"}]}'),
	('heron-a3', 2, 'Heron, A3', '250 x 320 mm', '{"parcel": [{"supply": "mailer", "quantity": "1 piece", "per": "order"}]}');

INSERT INTO bill (product, position, supply, quantity, stage, area) VALUES
	('heron-a4', 1, 'paper', '0.5 sheet', 'print', NULL),
	('heron-a4', 2, 'my time', '12 min', 'print', NULL),
	('heron-a4', 3, 'ink', NULL, NULL, 'image'),
	('heron-a3', 1, 'paper', '1 sheet', 'print', NULL),
	('heron-a3', 2, 'my time', '18 min', 'print', NULL),
	('heron-a3', 3, 'ink', NULL, NULL, 'image');

INSERT INTO channels (id, position, name, packing, trade_discount, tax, orders) VALUES
	('web', 1, 'Own web shop', 'parcel', NULL,
		'{"rate": "20%", "in_price": true, "on_shipping": true}', '[{"shipping": "4.50", "postage": "6.20"}]'),
	('shops', 2, 'Shops at half price', 'parcel', '["50%"]',
		'{"rate": "20%", "in_price": true}', '[{"items": 10}]');

INSERT INTO fees (channel, position, name, rate, of, fixed) VALUES
	('web', 1, 'card', '0.02', '["items", "shipping"]', '0.15');

INSERT INTO rules (id, position, rule, at_least, at_most, strength, channels) VALUES
	('3.5 times cost', 1, 'cost_multiple', '3.5', NULL, NULL, NULL),
	('9.00 stays online', 2, 'contribution', '9.00', NULL, NULL, '["web"]'),
	('4.00 stays in shops', 3, 'contribution', '4.00', NULL, NULL, '["shops"]'),
	('no jump', 4, 'max_change', NULL, '25%', 'prefer', NULL);

-- Today's prices, before the first list.
INSERT INTO prices (product, price) VALUES ('heron-a4', '20.00'), ('heron-a3', '32.00');
