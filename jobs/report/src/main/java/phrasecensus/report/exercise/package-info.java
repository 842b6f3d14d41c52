/** Exercises made from a phrase of a student, for the student's page and as files. */
package phrasecensus.report.exercise;
