/** Finding phrases of a finished study by any conditions together. */
package phrasecensus.report.find;
