CREATE TRIGGER price_history_is_not_changed BEFORE UPDATE ON price_history
BEGIN SELECT RAISE(ABORT, 'price_history is append only'); END;

CREATE TRIGGER price_history_is_not_deleted BEFORE DELETE ON price_history
BEGIN SELECT RAISE(ABORT, 'price_history is append only'); END;

-- INSERT OR REPLACE deletes without asking the trigger above.
CREATE TRIGGER price_history_is_not_replaced BEFORE INSERT ON price_history
WHEN EXISTS (SELECT 1 FROM price_history WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'price_history is append only'); END;
