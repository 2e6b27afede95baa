-- The shop document, made of the tables. What is NULL is left out. To use another field of the
-- document, add its column, and make this view anew in a migration.
--
-- This is the JSON of PostgreSQL. For SQLite the program writes json_object for json_build_object,
-- json_group_array for json_agg, and json_patch('{}', …), which drops what is null, for
-- json_strip_nulls.

CREATE VIEW document AS SELECT json_strip_nulls(json_build_object(
	'version', 1, 'currency', currency, 'price_step', price_step, 'price_limit', price_limit,
	'contingency', contingency, 'overhead', json(overhead), 'income_tax', income_tax, 'choose', choose,
	'supplies', json((SELECT json_agg(json(entry)) FROM (SELECT json_strip_nulls(json_build_object(
		'id', id, 'name', name, 'note', note, 'quantity', quantity, 'price', price, 'discount', discount,
		'freight', freight, 'duty', duty, 'exchange', exchange, 'labour', labour, 'sheet', json(sheet),
		'yearly', json(yearly))) AS entry FROM supplies ORDER BY position) AS entries)),
	'stages', json((SELECT json_agg(json(entry)) FROM (SELECT json_strip_nulls(json_build_object(
		'id', id, 'note', note, 'yield', yield, 'lost_of_started', lost_of_started,
		'recovery', recovery)) AS entry FROM stages ORDER BY position) AS entries)),
	'products', json((SELECT json_agg(json(entry)) FROM (SELECT json_strip_nulls(json_build_object(
		'id', id, 'name', name, 'note', note, 'design', design, 'image', image, 'sheet', sheet,
		'channels', json(channels), 'packing', json(packing),
		'price', (SELECT price FROM prices WHERE product = id),
		'bill', json((SELECT json_agg(json(line)) FROM (SELECT json_strip_nulls(json_build_object(
			'supply', supply, 'quantity', quantity, 'stage', stage, 'per', per, 'area', area,
			'cut', json(cut))) AS line FROM bill WHERE product = products.id ORDER BY position) AS lines))
		)) AS entry FROM products ORDER BY position) AS entries)),
	'channels', json((SELECT json_agg(json(entry)) FROM (SELECT json_strip_nulls(json_build_object(
		'id', id, 'name', name, 'note', note, 'packing', packing, 'trade_discount', json(trade_discount),
		'tax', json(tax), 'orders', json(orders),
		'fees', json((SELECT json_agg(json(line)) FROM (SELECT json_strip_nulls(json_build_object(
			'name', name, 'note', note, 'rate', rate, 'of', json(of), 'without_tax', json(without_tax),
			'fixed', fixed, 'per', per, 'at_least', at_least, 'at_most', at_most, 'share', share,
			'tax', tax)) AS line FROM fees WHERE channel = channels.id ORDER BY position) AS lines))
		)) AS entry FROM channels ORDER BY position) AS entries)),
	'rules', json((SELECT json_agg(json(entry)) FROM (SELECT json_strip_nulls(json_build_object(
		'id', id, 'note', note, 'rule', rule, 'strength', strength, 'at_least', at_least,
		'at_most', at_most, 'ends_in', json(ends_in), 'products', json(products),
		'channels', json(channels))) AS entry FROM rules ORDER BY position) AS entries))
)) AS text FROM shop;
