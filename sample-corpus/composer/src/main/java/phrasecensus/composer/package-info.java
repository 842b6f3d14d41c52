/**
 * The seeded composer that writes the invented sample corpus: solos, students and their tables. It
 * knows nothing of the program that studies the corpus.
 */
package phrasecensus.composer;
