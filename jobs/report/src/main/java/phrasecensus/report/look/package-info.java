/** Colours and the style sheet, the same in every page. */
package phrasecensus.report.look;
