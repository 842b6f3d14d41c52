/**
 * Aims and answers: what a teacher asks of a solo, and how a solo stands to it. Knows statistics by
 * key, value and n; nothing of notes, files or words for people.
 */
package phrasecensus.music.aim;
