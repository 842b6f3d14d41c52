package phrasecensus.tables;

import java.util.List;

/**
 * How the tables of a study are to be cited when they are published as a data set. What is not
 * stated is empty; without authors there is nothing to cite.
 *
 * @param authors in their order; empty when none are stated
 * @param version of the data set, as its authors count it
 * @param date on which it was or will be published, as 2026-03-14
 * @param doi as {@code 10.1234/abcd}
 * @param licence under which the tables may be used, by its SPDX identifier if it has one
 */
public record Publication(
    List<Author> authors, String version, String date, String doi, String licence) {
  /** Nothing is stated. */
  public static final Publication NOT_STATED = new Publication(List.of(), "", "", "", "");

  public Publication {
    authors = authors == null ? List.of() : List.copyOf(authors);
    version = version == null ? "" : version;
    date = date == null ? "" : date;
    doi = doi == null ? "" : doi;
    licence = licence == null ? "" : licence;
  }

  /**
   * Someone who made the data set.
   *
   * @param familyName of a person, or the name of a group
   * @param givenNames of a person; empty for a group
   * @param affiliation where they work; may be empty
   * @param orcid identifier of a person as {@code 0000-0002-1825-0097}; may be empty
   */
  public record Author(String familyName, String givenNames, String affiliation, String orcid) {
    public Author {
      familyName = familyName == null ? "" : familyName;
      givenNames = givenNames == null ? "" : givenNames;
      affiliation = affiliation == null ? "" : affiliation;
      orcid = orcid == null ? "" : orcid;
    }

    /** As in {@code Ada Lark}. */
    public String name() {
      return givenNames.isEmpty() ? familyName : givenNames + " " + familyName;
    }
  }

  /** Whether nothing at all is stated. */
  boolean isNotStated() {
    return equals(NOT_STATED);
  }
}
