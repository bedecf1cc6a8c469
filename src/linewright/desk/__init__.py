# SPDX-License-Identifier: Apache-2.0
"""Files that the builder owns: suppliers' lists, their terms, answers once given."""
