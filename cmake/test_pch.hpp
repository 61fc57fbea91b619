#pragma once
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "pch.hpp"
