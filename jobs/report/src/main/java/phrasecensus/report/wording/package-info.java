/** How the report puts things: sentences, numbers, dates, and text that comes from files. */
package phrasecensus.report.wording;
