/**
 * Phrases as sound: what a page carries so that they can be heard, and the script that plays it.
 */
package phrasecensus.report.listen;
