CREATE FUNCTION append_only() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN RAISE EXCEPTION '% is append only', TG_TABLE_NAME; END;
$$;

CREATE TRIGGER price_history_is_not_changed BEFORE UPDATE OR DELETE OR TRUNCATE ON price_history
FOR EACH STATEMENT EXECUTE FUNCTION append_only();
