/** The chord changes of a tune apart from any solo, and how they are laid under one. */
package phrasecensus.music.changes;
