/**
 * The texts of an export: tables as CSV, their dictionary, the description of the package, the
 * citation. Knows tables and schemas; where files lie is another's business.
 */
package phrasecensus.tables.export;
