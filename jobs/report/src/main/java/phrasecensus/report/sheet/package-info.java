/**
 * Sheets of corpus phrases that show one thing, for a teacher: which phrases, and the music of them
 * transposed to an instrument. Knows no file format.
 */
package phrasecensus.report.sheet;
