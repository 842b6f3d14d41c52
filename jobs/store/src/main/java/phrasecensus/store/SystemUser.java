package phrasecensus.store;

import org.apache.hadoop.security.UserGroupInformation;

/**
 * The user by whom Hadoop opens file systems. Containers often run under a number that no user of
 * the system has, and Hadoop asks the system for a name.
 */
public final class SystemUser {
  private static final String OF_HADOOP = "HADOOP_USER_NAME";

  private SystemUser() {}

  /** Gives the user a name for Hadoop where the system has none. */
  public static void ensureNamed() {
    String name = System.getProperty("user.name");
    if (name == null || name.isBlank() || name.equals("?")) {
      String given = System.getenv(OF_HADOOP);
      UserGroupInformation.setLoginUser(
          UserGroupInformation.createRemoteUser(
              given == null || given.isBlank() ? "nameless" : given));
    }
  }
}
