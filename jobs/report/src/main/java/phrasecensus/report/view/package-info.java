/** What stands on each page, complete: the templates only lay it out. */
package phrasecensus.report.view;
