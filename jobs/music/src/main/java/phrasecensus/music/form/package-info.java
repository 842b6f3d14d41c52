/** Where in the form of a tune each bar of a solo stands: chorus, section and bar in them. */
package phrasecensus.music.form;
