/**
 * What a lesson sheet says of a solo and shows from it, before it is put into words: where the line
 * breathes, what leads, what goes well, which phrase does it. Knows rows, not pages.
 */
package phrasecensus.report.lesson;
