/**
 * Pages made from the rows of a finished study: HTML and SVG without a browser, a script or a
 * network. Reads rows only; it knows no engine and no notation program.
 */
package phrasecensus.report;
