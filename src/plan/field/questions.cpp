#include "plan/field/questions.hpp"

#include "plan/field/facts.hpp"
#include "plan/field/notes.hpp"
#include "plan/field/pay.hpp"
#include "plan/field/replies.hpp"

namespace wildling::plan {
namespace {

constexpr std::int64_t kMonth = 30;

Field field(std::string name, FieldKind kind, std::string help) {
  Field one;
  one.name = std::move(name);
  one.kind = kind;
  one.help = std::move(help);
  return one;
}

Question due() {
  Question one;
  one.name = "due";
  one.help = "Which blocks are being smothered: what is due tomorrow and within a month.";
  Field days = field("days", FieldKind::whole, "how many days ahead; without it 30");
  days.low = 1;
  days.high = 366;
  one.fields = {days};
  one.reply = [](const store::Store& store, const Entries& entries, Date today, const Progress&) {
    return due_reply(load_field_book(store),
                     static_cast<int>(whole_of(entries, "days").value_or(kMonth)), today);
  };
  return one;
}

Question settle() {
  Question one;
  one.name = "settle";
  one.help = "The account of every seedling sent out, and return slips that are set aside.";
  one.reply = [](const store::Store& store, const Entries&, Date today, const Progress&) {
    return settle_reply(book_until(load_field_book(store), today));
  };
  return one;
}

Question pay() {
  Question one;
  one.name = "pay";
  one.help = "Attendance and pay from the work diary.";
  one.fields = {field("from", FieldKind::day, "first day; without it a week before --to"),
                field("to", FieldKind::day, "last day; without it the day before today")};
  one.reply = [](const store::Store& store, const Entries& entries, Date today, const Progress&) {
    const Date to = day_of(entries, "to").value_or(today - std::chrono::days(1));
    const Date from = day_of(entries, "from").value_or(to - std::chrono::days(6));
    return pay_reply(load_field_book(store), from, to);
  };
  return one;
}

Question rates() {
  Question one;
  one.name = "rates";
  one.help = "What one person does in a day: the work diary against the book.";
  one.reply = [](const store::Store& store, const Entries&, Date today, const Progress&) {
    return rates_reply(book_until(load_field_book(store), today));
  };
  return one;
}

Question tomorrow() {
  Question one;
  one.name = "tomorrow";
  one.help = "What stands on tomorrow's sheets, and the text for each crew's chat.";
  Field block = field("block", FieldKind::text, "code of a block; may be given several times");
  block.repeats = true;
  one.fields = {field("day", FieldKind::day, "the day of the work; without it the day after today"),
                block, field("crew", FieldKind::text, "name of the crew leader")};
  one.reply = [](const store::Store& store, const Entries& entries, Date today, const Progress&) {
    return tomorrow_reply(load_field_book(store), all_of(entries, "block"),
                          text_of(entries, "crew").value_or(""), day_of(entries, "day"), today);
  };
  return one;
}

}  // namespace

std::vector<Question> field_questions() {
  return {due(), settle(), pay(), rates(), tomorrow()};
}

std::vector<Note> field_notes() {
  return {walk_note(),     work_note(), wage_note(),    send_note(),
          dispatch_note(), slip_note(), trouble_note(), tool_note()};
}

}  // namespace wildling::plan
