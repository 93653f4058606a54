import { FILM_TABLES } from './0001/film.ts';
import { DEVELOPMENT_TABLES } from './0001/development.ts';
import { FILING_TABLES } from './0001/filing.ts';
import { SCAN_TABLES } from './0001/scans.ts';
import { KEEPING_TABLES } from './0001/keeping.ts';

/** The first archive: every idea of the product has its table and its foreign keys. */
export const ARCHIVE_SQL = [KEEPING_TABLES, FILM_TABLES, DEVELOPMENT_TABLES, FILING_TABLES, SCAN_TABLES].join(
  '\n',
);
