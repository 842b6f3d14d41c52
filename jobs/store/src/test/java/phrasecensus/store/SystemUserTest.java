package phrasecensus.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.apache.hadoop.security.UserGroupInformation;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Java calls a user {@code ?} whose number the system gives no name, as in containers. */
class SystemUserTest {
  private final String name = System.getProperty("user.name");
  private UserGroupInformation before;

  @BeforeEach
  void keepTheUser() throws IOException {
    before = UserGroupInformation.getLoginUser();
  }

  @AfterEach
  void restoreTheUser() {
    System.setProperty("user.name", name);
    UserGroupInformation.setLoginUser(before);
  }

  @ParameterizedTest
  @ValueSource(strings = {"?", "", " "})
  void aNumberWithoutANameGetsOne(String nameless) throws IOException {
    System.setProperty("user.name", nameless);

    SystemUser.ensureNamed();

    String given = System.getenv("HADOOP_USER_NAME");
    assertThat(UserGroupInformation.getLoginUser().getUserName())
        .isEqualTo(given == null || given.isBlank() ? "nameless" : given);
  }

  @Test
  void aUserWithANameIsLeftAlone() throws IOException {
    SystemUser.ensureNamed();

    assertThat(UserGroupInformation.getLoginUser()).isSameAs(before);
  }
}
