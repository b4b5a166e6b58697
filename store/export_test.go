package store

import "database/sql"

// Databases returns the connections beneath a store.
func (s *Store) Databases() (write, read *sql.DB) { return s.write, s.read }

// Text returns a statement as an engine gets it.
func (s *Store) Text(query string) string { return s.reader().text(query) }
