/**
 * Music notation for one line, drawn in Java: signs, spacing, beams, systems. Knows notes and bars,
 * not where they come from.
 */
package phrasecensus.report.engraving;
