package phrasecensus.report.lesson;

import phrasecensus.report.rows.SoloFacts;

/**
 * A phrase that does what the lesson is about.
 *
 * @param own true for one of the student's own
 * @param facts of the solo that it comes from
 * @param stretch where it stands in that solo
 * @param moved as the student reads it
 * @param inHome true where it stands in the key of the student's solo
 */
public record Example(
    boolean own, SoloFacts facts, Stretch stretch, MovedPhrase moved, boolean inHome) {}
