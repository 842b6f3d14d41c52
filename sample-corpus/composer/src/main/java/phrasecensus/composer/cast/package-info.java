/** Who plays what on which instrument, the students among them, and in which file it ends up. */
package phrasecensus.composer.cast;
