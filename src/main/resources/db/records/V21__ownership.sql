-- Nothing to add: a lock of the data folder says who owns a file, and a commit to a file always has an answer. The script
-- keeps one number for the records in a file and in PostgreSQL.
SELECT 1;
