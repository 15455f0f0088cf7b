-- Profiles of imports: the choices of a person for the files of one logger, as JSON.
CREATE TABLE import_profile (
  name    TEXT PRIMARY KEY,
  choices TEXT NOT NULL
);
