// Who may ask.
#include "desk/gatekeeper.hpp"

#include <fstream>

#include <gtest/gtest.h>
#include <sys/stat.h>

#include "base/files.hpp"
#include "help.hpp"

namespace wildling::desk {
namespace {

Request request(const std::string& path, std::map<std::string, std::string> headers) {
  Request made;
  made.method = "GET";
  made.path = path;
  made.headers = std::move(headers);
  return made;
}

class Gate : public ::testing::Test {
 protected:
  Gatekeeper gatekeeper{8080, "thekey", "thesecret"};
  const std::string host = "127.0.0.1:8080";

  int status(const Request& asked) {
    const auto answer = gatekeeper.stop(asked);
    return answer ? answer->status : 200;
  }
};

TEST_F(Gate, WithoutTheCookieNobodyPasses) {
  EXPECT_EQ(status(request("/api/state", {{"host", host}})), 403);
  EXPECT_EQ(status(request("/", {{"host", host}})), 403);
  EXPECT_EQ(status(request("/api/state", {{"host", host}, {"cookie", "wildling_8080=thesecre"}})),
            403);
  EXPECT_EQ(status(request("/api/state", {{"host", host}, {"cookie", "wildling_9=thesecret"}})),
            403);
}

TEST_F(Gate, TheCookieAmongOthersPasses) {
  EXPECT_EQ(status(request("/api/state",
                           {{"host", host}, {"cookie", "a=b; wildling_8080=thesecret; c=d"}})),
            200);
  EXPECT_EQ(
      status(request("/", {{"host", "localhost:8080"}, {"cookie", "wildling_8080=thesecret"}})),
      200);
}

TEST_F(Gate, TheKeyIsGoodOnce) {
  Request first = request("/", {{"host", host}});
  first.query.emplace("key", "thekey");
  const auto answer = gatekeeper.stop(first);
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 303);
  const std::string cookie = answer->headers.find("Set-Cookie")->second;
  EXPECT_NE(cookie.find("HttpOnly"), std::string::npos);
  EXPECT_NE(cookie.find("SameSite=Strict"), std::string::npos);
  EXPECT_EQ(status(first), 403);
}

TEST_F(Gate, AWrongKeyIsRefusedAndDoesNotUseTheRightOneUp) {
  Request wrong = request("/", {{"host", host}});
  wrong.query.emplace("key", "thekex");
  EXPECT_EQ(status(wrong), 403);
  Request right = request("/", {{"host", host}});
  right.query.emplace("key", "thekey");
  EXPECT_EQ(status(right), 303);
}

TEST_F(Gate, WhoIsKnownMayComeWithAnOldKey) {
  Request again = request("/", {{"host", host}, {"cookie", "wildling_8080=thesecret"}});
  again.query.emplace("key", "old");
  EXPECT_EQ(status(again), 303);
}

TEST_F(Gate, ForeignHostsAndOriginsAreRefused) {
  const std::string cookie = "wildling_8080=thesecret";
  EXPECT_EQ(status(request("/", {{"host", "evil.example"}, {"cookie", cookie}})), 403);
  EXPECT_EQ(status(request("/", {{"host", "127.0.0.1:8081"}, {"cookie", cookie}})), 403);
  EXPECT_EQ(status(request("/", {{"cookie", cookie}})), 403);
  for (const char* origin : {"http://evil.example", "null", "https://127.0.0.1:8080",
                             "http://127.0.0.1:8081", "http://localhost:8080", ""}) {
    EXPECT_EQ(status(request("/", {{"host", host}, {"cookie", cookie}, {"origin", origin}})), 403)
        << origin;
  }
  EXPECT_EQ(status(request(
                "/", {{"host", host}, {"cookie", cookie}, {"origin", "http://127.0.0.1:8080"}})),
            200);
  EXPECT_EQ(
      status(request("/", {{"host", host}, {"cookie", cookie}, {"sec-fetch-site", "cross-site"}})),
      403);
}

TEST_F(Gate, FormsAreRefused) {
  Request form = request("/api/answer", {{"host", host},
                                         {"cookie", "wildling_8080=thesecret"},
                                         {"content-length", "3"},
                                         {"content-type", "application/x-www-form-urlencoded"}});
  form.method = "POST";
  EXPECT_EQ(status(form), 415);
  form.headers["content-type"] = "multipart/form-data; boundary=x";
  EXPECT_EQ(status(form), 415);
  form.headers["content-type"] = "application/json; charset=utf-8";
  EXPECT_EQ(status(form), 200);
  form.headers.erase("content-length");
  EXPECT_EQ(status(form), 411);
  form.method = "DELETE";
  EXPECT_EQ(status(form), 405);
}

TEST(Secret, IsKeptForTheOwnerAlone) {
  const TempFolder folder;
  const std::string fresh(64, 'a');
  EXPECT_EQ(kept_secret(8080, folder.file("cache"), fresh), fresh);

  struct stat found {};

  ASSERT_EQ(::stat(folder.file("cache/page-8080").c_str(), &found), 0);
  EXPECT_EQ(found.st_mode & 0777U, 0600U);
  EXPECT_EQ(kept_secret(8080, folder.file("cache"), std::string(64, 'b')), fresh);
  EXPECT_NE(kept_secret(8081, folder.file("cache"), std::string(64, 'b')), fresh);
}

TEST(Secret, OneThatOthersCouldReadIsMadeAnew) {
  const TempFolder folder;
  kept_secret(8080, folder.file("cache"), std::string(64, 'a'));
  ::chmod(folder.file("cache/page-8080").c_str(), 0644);
  const std::string fresh(64, 'b');
  EXPECT_EQ(kept_secret(8080, folder.file("cache"), fresh), fresh);
}

TEST(Secret, WithoutAFolderItLastsAsLongAsTheProgram) {
  EXPECT_EQ(kept_secret(8080, "", "abc"), "abc");
}

TEST(SameSecret, TellsThemApart) {
  EXPECT_TRUE(same_secret("abc", "abc"));
  EXPECT_FALSE(same_secret("abc", "abd"));
  EXPECT_FALSE(same_secret("abc", "ab"));
  EXPECT_FALSE(same_secret("", "a"));
}

}  // namespace
}  // namespace wildling::desk
