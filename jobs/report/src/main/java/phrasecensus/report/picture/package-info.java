/**
 * Pictures as values: what is drawn where, with a title and a description in words. Across, places
 * are shares of the width, so that a picture takes any width without scaling its text; down, they
 * are pixels.
 */
package phrasecensus.report.picture;
